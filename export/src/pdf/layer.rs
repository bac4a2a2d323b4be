//! Layers that a reader can show and hide (optional content, ISO 32000-1, 8.11).

use super::style::Pen;
use engine::drawing::Role;
use lopdf::{Dictionary, Document, Object, ObjectId, dictionary};

/// What can be hidden by itself. The first page always shows as a whole.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub(super) enum Layer {
    /// Where the scissors go.
    Cut,
    /// Where it is sewn, and the finished edge.
    Sewing,
    /// Fold, grain line, direction of greatest stretch and notches.
    Marks,
    /// Words on pieces.
    Text,
    /// Where pages meet, and which page this is.
    Frames,
}

impl Layer {
    /// In the order that a reader lists them.
    pub(super) const ALL: [Self; 5] = [Self::Cut, Self::Sewing, Self::Marks, Self::Text, Self::Frames];

    /// The name in page content.
    pub(super) const fn key(self) -> &'static [u8] {
        match self {
            Self::Cut => b"Cut",
            Self::Sewing => b"Sewing",
            Self::Marks => b"Marks",
            Self::Text => b"Text",
            Self::Frames => b"Frames",
        }
    }

    /// The name that a person reads.
    pub(super) const fn title(self) -> &'static str {
        match self {
            Self::Cut => "Cut lines",
            Self::Sewing => "Sewing lines and finished edges",
            Self::Marks => "Fold, grain line and notches",
            Self::Text => "Words on the pieces",
            Self::Frames => "Page joins and page names",
        }
    }

    /// Where a line of a piece belongs.
    pub(super) const fn of(pen: Pen) -> Self {
        match pen {
            Pen::Role(Role::Cut) => Self::Cut,
            Pen::Role(Role::Sewing | Role::SecondRow | Role::Finished) => Self::Sewing,
            Pen::Fold | Pen::Notch | Pen::Arrow => Self::Marks,
            Pen::Join | Pen::Match | Pen::Exact | Pen::Map | Pen::Grid => Self::Frames,
        }
    }
}

/// Adds every layer; answers the names of all of them in page content.
pub(super) fn add(document: &mut Document) -> Result<Dictionary, lopdf::Error> {
    let groups = Layer::ALL.map(|layer| {
        let group = dictionary! { "Type" => "OCG", "Name" => lopdf::text_string(layer.title()) };
        (layer, document.add_object(group))
    });
    let all = || groups.iter().map(|(_, id)| Object::Reference(*id)).collect::<Vec<Object>>();
    let shown = dictionary! {
        "Name" => lopdf::text_string("Everything"),
        "BaseState" => "ON",
        "Order" => all(),
        "ListMode" => "AllPages",
    };
    document.catalog_mut()?.set("OCProperties", dictionary! { "OCGs" => all(), "D" => shown });
    Ok(groups.iter().fold(Dictionary::new(), |mut names, (layer, id): &(Layer, ObjectId)| {
        names.set(layer.key(), Object::Reference(*id));
        names
    }))
}
