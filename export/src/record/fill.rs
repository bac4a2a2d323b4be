//! From the garment's plain values to the record's keys.

use super::number::{At, RecordError};
use super::shape::{
    Alternative, Band, Crossing, Edge, EdgeRef, Elastic, Gap, Lay, Machine, Mark, Notch, Opening, Piece, Placed, Seam,
    Section, Step, Total, Used, Value, Worn,
};
use engine::elastic;
use engine::garment as from;
use engine::lay;
use engine::sheet::PutOn;
use engine::stitch::{Needle, Sewing, Span};
use engine::terms::Extent;
use engine::topology::{Half, Way};
use engine::words::{girth_source, joining, work};

/// Fills one object of the record from a value of the garment.
pub(super) trait Fill<'g, G>: Sized {
    fn fill(from: &'g G, at: &At) -> Result<Self, RecordError>;
}

impl<'g> Fill<'g, from::Variant> for Alternative<'g> {
    fn fill(variant: &'g from::Variant, at: &At) -> Result<Self, RecordError> {
        let from::Variant { name, garment } = variant;
        Ok(Self {
            name,
            used: list(&garment.used, &at.key("used"))?,
            pieces: list(&garment.pieces, &at.key("pieces"))?,
            seams: list(&garment.seams, &at.key("seams"))?,
            crossings: list(&garment.crossings, &at.key("crossings"))?,
            openings: list(&garment.openings, &at.key("openings"))?,
            elastics: list(&garment.elastics, &at.key("elastics"))?,
            order_of_work: list(&garment.order_of_work, &at.key("order_of_work"))?,
        })
    }
}

impl<'g> Fill<'g, lay::Lay> for Lay<'g> {
    fn fill(lay: &'g lay::Lay, at: &At) -> Result<Self, RecordError> {
        Ok(Self {
            cloth: &lay.cloth.name,
            width_mm: at.key("width_mm").number(lay.cloth.width)?,
            length_mm: at.key("length_mm").number(lay.length)?,
            use_percent: at.key("use_percent").number(lay.use_percent)?,
            pairs: lay.pairs,
            gap_mm: at.key("gap_mm").number(lay.gap)?,
            placed: list(&lay.placed, &at.key("placed"))?,
        })
    }
}

impl<'g> Fill<'g, lay::Placed> for Placed<'g> {
    fn fill(placed: &'g lay::Placed, at: &At) -> Result<Self, RecordError> {
        Ok(Self {
            piece: &placed.piece,
            x: at.key("x").number(placed.at.x)?,
            y: at.key("y").number(placed.at.y)?,
            turn: placed.turn.degrees(),
        })
    }
}

impl<'g> Fill<'g, from::Used> for Used<'g> {
    fn fill(used: &'g from::Used, at: &At) -> Result<Self, RecordError> {
        let from::Used { key, value, source, note } = used;
        let value = match value {
            from::Value::Mm(v) | from::Value::Percent(v) | from::Value::Number(v) => {
                Value::Number(at.key("value").number(*v)?)
            }
            from::Value::Word(word) => Value::Word(word),
        };
        Ok(Self { key: key.to_string(), value, source: source.name(), note })
    }
}

impl<'g> Fill<'g, from::Piece> for Piece<'g> {
    fn fill(piece: &'g from::Piece, at: &At) -> Result<Self, RecordError> {
        Ok(Self {
            name: piece.id.name(),
            quantity: piece.quantity,
            material: &piece.material,
            on_fold: piece.extent == Extent::HalfOnFold,
            area_mm2: at.key("area_mm2").number(piece.area_mm2)?,
            perimeter_mm: at.key("perimeter_mm").number(piece.perimeter_mm)?,
            cut: list(&piece.cut.edges, &at.key("cut"))?,
            sewing: list(&piece.sewing.edges, &at.key("sewing"))?,
            finished: list(&piece.finished.edges, &at.key("finished"))?,
            notches: list(&piece.notches, &at.key("notches"))?,
        })
    }
}

impl<'g> Fill<'g, from::Edge> for Edge {
    fn fill(edge: &'g from::Edge, at: &At) -> Result<Self, RecordError> {
        Ok(Self { edge: edge.id.name(), d: at.key("d").path(&edge.path)? })
    }
}

impl<'g> Fill<'g, from::Notch> for Notch {
    fn fill(notch: &'g from::Notch, at: &At) -> Result<Self, RecordError> {
        Ok(Self {
            id: notch.id.name(),
            edge: notch.edge.name(),
            at: at.key("at").point(notch.at)?,
            along: at.key("along").number(notch.along)?,
            inward: at.key("inward").vector(notch.inward)?,
            mate: notch.mate.map(|mate| mate.name()),
        })
    }
}

impl<'g> Fill<'g, from::SeamWalk> for Seam {
    fn fill(seam: &'g from::SeamWalk, at: &At) -> Result<Self, RecordError> {
        Ok(Self {
            name: seam.id.name(),
            a: edge_ref(&seam.a),
            b: edge_ref(&seam.b),
            length_a: at.key("length_a").number(seam.length_a)?,
            length_b: at.key("length_b").number(seam.length_b)?,
            difference: at.key("difference").number(seam.difference)?,
            sewn_a: at.key("sewn_a").number(seam.sewn_a)?,
            sewn_b: at.key("sewn_b").number(seam.sewn_b)?,
        })
    }
}

impl<'g> Fill<'g, from::Crossing> for Crossing {
    fn fill(crossing: &'g from::Crossing, at: &At) -> Result<Self, RecordError> {
        Ok(Self {
            opening: crossing.id.opening.name(),
            seam: crossing.id.seam.name(),
            a: edge_ref(&crossing.a),
            b: edge_ref(&crossing.b),
            angle: at.key("angle").number(crossing.angle)?,
        })
    }
}

impl<'g> Fill<'g, from::OpeningWalk> for Opening<'g> {
    fn fill(walk: &'g from::OpeningWalk, at: &At) -> Result<Self, RecordError> {
        Ok(Self {
            name: walk.opening.name(),
            finish: walk.finish.name(),
            put_on: put_on(walk.put_on),
            finished: at.key("finished").number(walk.finished)?,
            sewing: at.key("sewing").number(walk.sewing)?,
            cut: at.key("cut").number(walk.cut)?,
            path: walk.path.iter().map(edge_ref).collect(),
            sections: list(&walk.sections, &at.key("sections"))?,
            elastic: optional(walk.elastic.as_ref(), &at.key("elastic"))?,
            band: optional(walk.band.as_ref(), &at.key("band"))?,
            gap: optional(walk.gap.as_ref(), &at.key("gap"))?,
            worn: worn(walk, &at.key("worn"))?,
        })
    }
}

impl<'g> Fill<'g, from::SectionWalk> for Section {
    fn fill(section: &'g from::SectionWalk, at: &At) -> Result<Self, RecordError> {
        Ok(Self {
            name: section.id.name(),
            from: section.from.name(section.id.opening),
            to: section.to.name(section.id.opening),
            finished: at.key("finished").number(section.finished)?,
            sewing: at.key("sewing").number(section.sewing)?,
            cut: at.key("cut").number(section.cut)?,
            reduction: at.key("reduction").maybe(section.reduction)?,
            elastic_length: at.key("elastic_length").maybe(section.elastic_length)?,
            stretch: at.key("stretch").maybe(section.stretch)?,
        })
    }
}

impl<'g> Fill<'g, elastic::ElasticCut> for Elastic<'g> {
    fn fill(elastic: &'g elastic::ElasticCut, at: &At) -> Result<Self, RecordError> {
        Ok(Self {
            name: &elastic.name,
            width: at.key("width").number(elastic.width)?,
            reduction: at.key("reduction").number(elastic.reduction)?,
            basis: elastic.basis.name(),
            finished_length: at.key("finished_length").number(elastic.finished_length)?,
            cut_length: at.key("cut_length").number(elastic.cut_length)?,
            in_hand: at.key("in_hand").maybe(elastic.in_hand)?,
            joining: joining(elastic, at.speech),
            marks: marks(elastic, &at.key("marks"))?,
        })
    }
}

/// The marks of an elastic, each with where it lies as the elastic is cut.
fn marks(elastic: &elastic::ElasticCut, at: &At) -> Result<Vec<Mark>, RecordError> {
    let mut marks: Vec<Mark> = list(&elastic.marks, at)?;
    for (i, (mark, of)) in marks.iter_mut().zip(&elastic.marks).enumerate() {
        let places = elastic.from_cut_end(of);
        mark.from_cut_end =
            places.into_iter().map(|mm| at.item(i).key("from_cut_end").number(mm)).collect::<Result<_, _>>()?;
    }
    Ok(marks)
}

impl<'g> Fill<'g, elastic::ElasticTotal> for Total<'g> {
    fn fill(total: &'g elastic::ElasticTotal, at: &At) -> Result<Self, RecordError> {
        Ok(Self {
            name: &total.name,
            width: at.key("width").number(total.width)?,
            cut_length: at.key("cut_length").number(total.cut_length)?,
            in_hand: at.key("in_hand").number(total.in_hand)?,
        })
    }
}

impl<'g> Fill<'g, elastic::Mark> for Mark {
    fn fill(mark: &'g elastic::Mark, at: &At) -> Result<Self, RecordError> {
        Ok(Self {
            label: mark.number.to_string(),
            place: mark.place.name(),
            along_elastic: at.key("along_elastic").number(mark.along_elastic)?,
            along_edge: at.key("along_edge").number(mark.along_edge)?,
            from_cut_end: Vec::new(),
        })
    }
}

impl<'g> Fill<'g, elastic::BandCut> for Band {
    fn fill(band: &'g elastic::BandCut, at: &At) -> Result<Self, RecordError> {
        Ok(Self {
            piece: band.piece.name(),
            reduction: at.key("reduction").number(band.reduction)?,
            joining: joining(band, at.speech),
            marks: list(&band.marks, &at.key("marks"))?,
            length: at.key("length").number(band.length)?,
            width: at.key("width").number(band.width)?,
            cut_length: at.key("cut_length").number(band.cut_length)?,
        })
    }
}

impl<'g> Fill<'g, from::Gap> for Gap {
    fn fill(gap: &'g from::Gap, at: &At) -> Result<Self, RecordError> {
        Ok(Self { length: at.key("length").number(gap.length)?, place: gap.at.name() })
    }
}

fn worn(walk: &from::OpeningWalk, at: &At) -> Result<Worn, RecordError> {
    let worn = &walk.worn;
    Ok(Worn {
        girth: at.key("girth").number(worn.girth)?,
        girth_source: girth_source(worn.girth_source, walk.opening),
        relaxed: at.key("relaxed").number(worn.relaxed)?,
        stretch: at.key("stretch").number(worn.stretch)?,
        cloth_stretch: at.key("cloth_stretch").number(worn.cloth_stretch)?,
        tension_n: at.key("tension_n").maybe(worn.tension_n)?,
        pressure_kpa: at.key("pressure_kpa").maybe(worn.pressure_kpa)?,
    })
}

impl<'g> Fill<'g, from::Step> for Step {
    fn fill(step: &'g from::Step, at: &At) -> Result<Self, RecordError> {
        Ok(Self {
            step: step.id.name(),
            title: work::title(step),
            does: work::does(step, at.speech),
            edge: step.id.edge(),
            length: at.key("length").maybe(step.length)?,
            stitch: step.sewing.map(|s| s.stitch.code()),
            machine: step.sewing.map(|s| machine(s, step.needle)),
            needs: step.needs.iter().map(|n| n.step.name()).collect(),
            because: step.needs.iter().map(|n| work::because(n.because)).collect(),
            caution: step.caution.map(work::caution),
        })
    }
}

fn machine(set: Sewing, needle: Option<Needle>) -> Machine {
    let pair = |Span { from, to }: Span| [from, to];
    Machine {
        needle: needle.map(work::needle),
        stitch: work::stitch(set.stitch),
        width_mm: set.width.map(pair),
        length_mm: pair(set.length),
        differential_feed: set.differential.map(pair),
    }
}

/// Every item of a list, each at its own place.
pub(super) fn list<'g, G, S: Fill<'g, G>>(items: &'g [G], at: &At) -> Result<Vec<S>, RecordError> {
    items.iter().enumerate().map(|(i, item)| S::fill(item, &at.item(i))).collect()
}

fn optional<'g, G, S: Fill<'g, G>>(item: Option<&'g G>, at: &At) -> Result<Option<S>, RecordError> {
    item.map(|item| S::fill(item, at)).transpose()
}

fn edge_ref(edge: &from::EdgeRef) -> EdgeRef {
    let from::EdgeRef { piece, edge, way, half } = edge;
    EdgeRef { piece: piece.name(), edge: edge.name(), reverse: *way == Way::Back, mirrored: *half == Half::Minus }
}

/// The sheet's word.
fn put_on(way: PutOn) -> &'static str {
    match way {
        PutOn::Flat => "flat",
        PutOn::Round => "round",
    }
}
