//! How the keys of a section are written down.

/// The keys of one section, a row each: the constant and the name in the sheet, what it takes, what
/// holds without it, and how one gets the value. What more there is to say follows as `.advice(…)`
/// and `.example(…)`.
macro_rules! rows {
    ($mark:ty = $place:expr; $($id:ident $name:literal: $kind:expr, $absent:expr, $how:literal $(.$more:ident($with:expr))*;)*) => {
        $(
            #[doc = $how]
            pub const $id: $crate::keys::key::Field<$mark> = {
                static ROW: $crate::keys::row::Row = $crate::keys::row::Row {
                    name: $name,
                    kind: $kind,
                    absent: $absent,
                    how: $how,
                    advice: "",
                    example: $crate::keys::row::Sample::None,
                }$(.$more($with))*;
                $crate::keys::key::Field::new($place, &ROW)
            };
        )*
        /// Every key of the section, in the order of a sheet.
        pub static ROWS: &[&$crate::keys::row::Row] = &[$($id.row()),*];
    };
}
