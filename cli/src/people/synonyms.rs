//! What people call the columns of their tables. Common practice, both sides of the Atlantic; keys of
//! the sheet are known by their own names anyway.

/// Words for the person.
pub(super) const NAME: &[&str] = &[
    "name",
    "name or number",
    "full name",
    "learner",
    "student",
    "pupil",
    "participant",
    "person",
    "client",
    "customer",
    "who",
];

/// Words for a size, where a row is one and nobody is named.
pub(super) const SIZE: &[&str] = &["size", "sizes", "size name", "size designation"];

/// Words for a name in two parts, in the order that they are said in.
pub(super) const FIRST_NAME: &[&str] = &["first name", "given name", "forename"];
/// The other part.
pub(super) const LAST_NAME: &[&str] = &["last name", "family name", "surname"];

/// Words for the unit of a row.
pub(super) const UNITS: &[&str] = &["units", "unit", "measured in"];

/// Words for keys of the sheet.
pub(super) const KEYS: &[(&str, &[&str])] = &[
    (
        "body.waist_girth",
        &["waist", "waist girth", "waist circumference", "natural waist", "round the waist", "waist measurement"],
    ),
    (
        "body.hip_girth",
        &[
            "hip",
            "hips",
            "hip girth",
            "hip circumference",
            "full hip",
            "full hips",
            "seat",
            "round the hips",
            "hip measurement",
        ],
    ),
    (
        "body.waist_to_hip",
        &["waist to hip", "waist to hips", "waist hip", "waist to seat", "waist to hip level", "hip drop"],
    ),
    (
        "body.crotch_length",
        &[
            "crotch length",
            "crotch",
            "total crotch length",
            "total crotch",
            "full crotch length",
            "total rise",
            "between the legs",
            "through the legs",
        ],
    ),
    (
        "body.crotch_length_front",
        &["crotch length front", "front crotch length", "front crotch", "crotch front", "front rise"],
    ),
    ("body.thigh_girth", &["thigh", "thighs", "thigh girth", "thigh circumference", "round the thigh", "upper thigh"]),
    ("body.waist_level", &["waist level", "waist taken at"]),
    ("body.waist_breadth", &["waist breadth", "waist width"]),
    ("body.hip_breadth", &["hip breadth", "hip width"]),
    ("body.top_edge_girth", &["top edge", "top edge girth"]),
    ("body.leg_line_girth", &["leg line", "leg line girth"]),
    ("body.elastic_top", &["elastic top", "top elastic", "waist elastic"]),
    ("body.child", &["child"]),
    ("fabric.name", &["cloth", "fabric"]),
    ("fabric.width", &["cloth width", "fabric width"]),
    ("style.base", &["base", "style"]),
    ("finish.top.kind", &["top finish", "top edge finish", "waist finish", "finish top"]),
    ("finish.legs.kind", &["leg finish", "legs finish", "leg edge finish", "leg edges", "finish legs"]),
    ("finish.legs.elastic", &["leg elastic", "legs elastic"]),
];

/// Words that mean different things to different people, with what to write.
pub(super) const UNCLEAR: &[(&str, &str)] = &[
    (
        "hip depth",
        "write waist_to_hip for the depth of the hip level under the waist, or hip_depth for front to back between \
         two rulers",
    ),
    (
        "waist depth",
        "write waist_depth for front to back between two rulers, or waist_to_hip for how far the hip is below",
    ),
    (
        "rise",
        "write crotch_length for the whole way between the legs, crotch_length_front for its front part, or waist_to_hip \
         for how far the hip is below the waist",
    ),
    (
        "legs",
        "write thigh for the girth, leg_line for the line of the edge, or finish.legs.kind for how the edges are finished",
    ),
    ("back rise", "write crotch_length for the whole way between the legs; the back is what the front leaves of it"),
    (
        "body rise",
        "that is taken sitting and is not used here: write crotch_length, taken between the legs from waist to waist; \
         or give this column a header that starts with “-” to leave it out",
    ),
    (
        "crotch depth",
        "that is taken sitting and is not used here: write crotch_length, taken between the legs from waist to waist; \
         or give this column a header that starts with “-” to leave it out",
    ),
];
