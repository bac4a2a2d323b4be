//! Layers that a reader can show and hide (optional content, ISO 32000-1, 8.11).

use super::style::Pen;
use engine::drawing::{Drawing, Role};
use lopdf::{Dictionary, Document, Object, dictionary};

/// What can be hidden by itself. Of the first page, only what the drawing says can be.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub(crate) enum Layer {
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
    /// One way to make the garment: 0 is that of the sheet, the others are its variants.
    /// Whatever shows on it is on one of the layers above as well.
    Way(usize),
    /// The first or the second of two garments that are shown together.
    Garment(usize),
    /// One of the sizes that lie over each other. Its lines are on one of the layers above as well.
    Size(usize),
    /// One line of the trials.
    Line(usize),
}

impl Layer {
    /// Those of every print, in the order that a reader lists them.
    const USUAL: [Self; 5] = [Self::Cut, Self::Sewing, Self::Marks, Self::Text, Self::Frames];

    /// The name in page content.
    pub(super) fn key(self) -> String {
        match self {
            Self::Cut => "Cut".to_owned(),
            Self::Sewing => "Sewing".to_owned(),
            Self::Marks => "Marks".to_owned(),
            Self::Text => "Text".to_owned(),
            Self::Frames => "Frames".to_owned(),
            Self::Way(n) => format!("Way{n}"),
            Self::Garment(n) => format!("Garment{n}"),
            Self::Size(n) => format!("Size{n}"),
            Self::Line(n) => format!("Line{n}"),
        }
    }

    /// Of a way to make it, shown together with another one.
    pub(super) const fn as_garment(self) -> Self {
        match self {
            Self::Way(n) => Self::Garment(n),
            other => other,
        }
    }

    /// The name that a person reads.
    fn title(self, drawing: &Drawing, together: &[String]) -> String {
        match self {
            Self::Cut => "Cut lines".to_owned(),
            Self::Sewing => "Sewing lines and finished edges".to_owned(),
            Self::Marks => "Fold, grain line and notches".to_owned(),
            Self::Text => "Words on the pieces".to_owned(),
            Self::Frames => "Page joins and page names".to_owned(),
            Self::Way(n) => match n.checked_sub(1).and_then(|i| drawing.variants.get(i)) {
                Some(variant) => format!("Alternative: {}", variant.name),
                None => "As the sheet says".to_owned(),
            },
            Self::Garment(n) => together.get(n).cloned().unwrap_or_default(),
            Self::Size(n) => drawing.sizes.get(n).map_or_else(String::new, |size| format!("Size {}", size.name)),
            Self::Line(n) => drawing.trials.lines.get(n).map_or_else(String::new, |line| {
                let head = line.split_once(": ").map_or(line.as_str(), |(head, _)| head);
                format!("{}: {head}", drawing.trials.heading)
            }),
        }
    }

    /// Where a line of a piece belongs.
    pub(super) const fn of(pen: Pen) -> Self {
        match pen {
            Pen::Role(Role::Cut) | Pen::Second | Pen::Size(_) => Self::Cut,
            Pen::Role(Role::Sewing | Role::SecondRow | Role::Finished) => Self::Sewing,
            Pen::Fold | Pen::Notch | Pen::Arrow => Self::Marks,
            Pen::Join | Pen::Match | Pen::Exact | Pen::Map | Pen::Grid | Pen::Body | Pen::Tape | Pen::Ruler => {
                Self::Frames
            }
        }
    }
}

/// Every layer of a drawing, with the name that a person reads.
pub(super) fn named(drawing: &Drawing, together: &[String]) -> Vec<(Layer, String)> {
    let variants = drawing.variants.len();
    let ways = (0..=variants).filter(|_| variants > 0).map(Layer::Way);
    let sizes = (0..drawing.sizes.len()).map(Layer::Size);
    let lines = (0..drawing.trials.lines.len()).map(Layer::Line);
    let garments = (0..together.len()).map(Layer::Garment);
    let all = Layer::USUAL.into_iter().chain(ways).chain(sizes).chain(garments).chain(lines);
    all.map(|layer| (layer, layer.title(drawing, together))).collect()
}

/// Adds layers; answers their names in page content, and what the document says of them.
///
/// Of the ways to make it, one shows at a time: the sheet's own, until a person picks another. Sizes show
/// all at once, without their sewing lines, among which no cut line could be followed.
pub(super) fn add(document: &mut Document, layers: &[(Layer, String)]) -> (Dictionary, Option<Dictionary>) {
    let mut names = Dictionary::new();
    let mut group = |(layer, title): &(Layer, String)| {
        let id = document.add_object(dictionary! { "Type" => "OCG", "Name" => lopdf::text_string(title) });
        names.set(layer.key(), Object::Reference(id));
        (*layer, Object::Reference(id))
    };
    let groups: Vec<(Layer, Object)> = layers.iter().map(&mut group).collect();
    if groups.is_empty() {
        return (names, None);
    }
    let among = |is_one: fn(&Layer) -> bool| -> Vec<Object> {
        groups.iter().filter(|(layer, _)| is_one(layer)).map(|(_, group)| group.clone()).collect()
    };
    let ways = among(|layer| matches!(layer, Layer::Way(_)));
    let sizes = among(|layer| matches!(layer, Layer::Size(_)));
    let properties = dictionary! {
        "OCGs" => groups.iter().map(|(_, o)| o.clone()).collect::<Vec<_>>(),
        "D" => shown(&groups, &ways, &sizes),
    };
    (names, Some(properties))
}

/// How a reader lists the layers, and which show by themselves.
fn shown(groups: &[(Layer, Object)], ways: &[Object], sizes: &[Object]) -> Dictionary {
    let mut order: Vec<Object> = Vec::new();
    for (layer, group) in groups {
        match layer {
            Layer::Way(0) => {
                let title = lopdf::text_string("Variants, one at a time");
                order.push(Object::Array([vec![title], ways.to_vec()].concat()));
            }
            Layer::Size(0) => {
                order.push(Object::Array([vec![lopdf::text_string("Sizes")], sizes.to_vec()].concat()));
            }
            Layer::Way(_) | Layer::Size(_) => {}
            _ => order.push(group.clone()),
        }
    }
    let mut shown = dictionary! {
        "Name" => lopdf::text_string("Everything"),
        "BaseState" => "ON",
        "Order" => order,
        "ListMode" => "AllPages",
    };
    if let [_, others @ ..] = ways
        && !others.is_empty()
    {
        shown.set("OFF", others.to_vec());
        shown.set("RBGroups", vec![Object::Array(ways.to_vec())]);
    }
    if !sizes.is_empty() {
        let sewing = groups.iter().filter(|(layer, _)| *layer == Layer::Sewing);
        shown.set("OFF", sewing.map(|(_, group)| group.clone()).collect::<Vec<_>>());
    }
    shown
}
