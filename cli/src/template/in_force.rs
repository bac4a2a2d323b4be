//! What holds for keys that the commented sheet leaves out: the values of the garment that the
//! sheet makes as it stands.

use engine::finish::FinishKind;
use engine::garment::{Garment, OpeningWalk, Used, Value};
use engine::keys::{Edges, Field, Home, Key, PerEdge, Sample, body, finish, print, style};
use engine::plan::Plan;
use engine::sheet::{FinishSpec, Opening, Sheet};
use export::pdf::PageSetup;

/// The garment of a sheet, to be asked for the values it stands on.
pub(super) struct InForce {
    sheet: Sheet,
    garment: Garment,
}

impl InForce {
    /// Of the text of a sheet; none where it makes no garment.
    pub(super) fn of(source: &str) -> Option<Self> {
        let sheet = crate::sheet::read(source, "sheet").ok()?;
        let garment = engine::record(&sheet).ok()?;
        Some(Self { sheet, garment })
    }

    /// The value that holds for a key, if there is one.
    pub(super) fn value(&self, key: &Key) -> Option<Sample> {
        self.derived(key)
            .or_else(|| listed(&self.garment.used, &of_one_leg(key)))
            .or_else(|| self.in_another_finish(key))
    }

    /// Values that the garment comes to, in place of one that is given.
    fn derived(&self, key: &Key) -> Option<Sample> {
        let walk = |opening| self.garment.openings.iter().find(|o: &&OpeningWalk| o.opening == opening);
        let elastic = |opening| walk(opening)?.elastic.as_ref().map(|e| e.finished_length);
        let paper = PageSetup::default();
        let lengths: [(Key, Option<f64>); 7] = [
            (body::TOP_EDGE_GIRTH.into(), walk(Opening::Top).map(|o| o.worn.girth)),
            (body::LEG_LINE_GIRTH.into(), walk(Opening::LeftLeg).map(|o| o.worn.girth)),
            (style::LEG_EDGE.into(), walk(Opening::LeftLeg).map(|o| o.finished)),
            (finish::LENGTH.on(Edges::Top), elastic(Opening::Top)),
            (finish::LENGTH.on(Edges::Legs), elastic(Opening::LeftLeg)),
            (print::MARGIN.into(), Some(paper.margin_mm)),
            (print::OVERLAP.into(), Some(paper.overlap_mm)),
        ];
        lengths.iter().find(|(known, _)| known == key).and_then(|(_, mm)| *mm).map(Sample::Mm)
    }

    /// A key that the finish of this edge does not take: what would hold in the first one that does.
    fn in_another_finish(&self, key: &Key) -> Option<Sample> {
        let Home::Finish(edges) = key.home() else { return None };
        let opening = *edges.openings().first()?;
        let field = finish::named(key.name())?;
        let kind = FinishKind::all().find(|kind| kind.takes_key(field))?;
        let used = Plan::of(&self.finished_with(kind, field, opening)).ok()?.used;
        listed(&used, &of_one_leg(key))
    }

    fn finished_with(&self, kind: FinishKind, left_out: Field<PerEdge>, opening: Opening) -> Sheet {
        let mut sheet = self.sheet.clone();
        let spec: &mut FinishSpec = match opening {
            Opening::Top => &mut sheet.finish.top,
            Opening::LeftLeg => &mut sheet.finish.left_leg,
            Opening::RightLeg => &mut sheet.finish.right_leg,
        };
        spec.kind = kind;
        if left_out != finish::PUT_ON {
            spec.put_on = None;
        }
        sheet
    }
}

/// Both legs are alike in the sheet: one of them stands for both.
fn of_one_leg(key: &Key) -> Key {
    match (key.home(), finish::named(key.name())) {
        (Home::Finish(Edges::Legs), Some(field)) => field.on(Edges::LeftLeg),
        _ => key.clone(),
    }
}

fn listed(used: &[Used], key: &Key) -> Option<Sample> {
    let used = used.iter().find(|used| used.key == *key)?;
    match &used.value {
        Value::Mm(mm) => Some(Sample::Mm(*mm)),
        Value::Percent(number) | Value::Number(number) => Some(Sample::Number(*number)),
        // A word of the table, so that it can be shown as one.
        Value::Word(word) => match key.row().kind {
            engine::keys::Kind::Word(words) => words().into_iter().find(|w| w == word).map(Sample::Text),
            _ => None,
        },
    }
}
