//! The work card, from the record and the plan: the same steps as the order of work, in as few words as
//! can be sewn from. The long text is `work`'s.

mod cloth;
mod edges;
mod machine;
mod says;
mod steps;

use crate::drawing::card::{Card, Part, Picture};
use crate::finish::task::Caution;
use crate::garment::{Garment, Source, Step, Value};
use crate::plan::Plan;
use crate::terms::Opening;
use crate::words::{Speech, number, work};
pub(crate) use cloth::pictured;
pub use edges::STRIP_ROW;

/// Over the cells of [`Card::edges`].
pub const COLUMNS: [&str; 6] = ["edge", "finish", "width, elastic", "cut", "ends", "how it is to feel, stretch"];

/// What the figure shows, for who does not see it.
pub const FIGURE: &str = "The garment on the body, from the front and from the back, its edges named";
/// What the picture of an edge shows.
pub const CROSS: &str = "The edge cut across, the body below: cloth, elastic and rows of stitches";
/// What the picture of a roll shows.
pub const ROLL: &str = "Front and back rolled up between gusset and lining, cut across: raw edges outside";
/// Its layers at the seam that is sewn, from above, and the one between them at the other.
pub const ROLL_LAYERS: [&str; 3] = ["gusset", "back", "lining"];
/// See [`ROLL_LAYERS`].
pub const ROLL_FRONT: &str = "front";
/// What the picture of a lay shows.
pub const LAY: &str = "How whole pieces lie on the cloth, the grain along it";
/// Beside its arrow.
pub const GRAIN: &str = "grain";
/// What a ruler shows.
pub const RULER: &str = "The elastic at true size, with its marks";
/// Over the table.
pub const EDGES: &str = "What goes onto each edge";
/// Over the strips.
pub const STRIPS: &str = "Elastic at true size";
/// Over the order of work.
pub const WORK: &str = "Order of work";
/// Over the block for the trial.
pub const TRIAL: &str = "The trial";
/// Over its columns.
pub const VERDICTS: [&str; 3] = ["loose", "right", "tight"];
/// Over the room beside them.
pub const WHERE: &str = "gaped or rode up at";
/// Before the room for a date.
pub const DATE: &str = "date";
/// Over the cautions.
pub const CAUTIONS: &str = "Take care";
/// Over the measurements.
pub const MEASURES: &str = "Measurements, for the maker's file";

/// Everything on the card of a garment.
pub(crate) fn card(garment: &Garment, plan: &Plan) -> Card {
    let speech = Speech(garment.units);
    let (strips, edges) = (edges::strips(garment, speech), edges::table(garment, plan, speech));
    let stretches = (plan.cloth.stretch_across > 0.0)
        .then(|| format!("stretching {} round the body", number::percent(100.0 * plan.cloth.stretch_across)));
    let about: Vec<String> = garment.date.iter().cloned().chain([plan.cloth.name.clone()]).chain(stretches).collect();
    Card {
        title: garment.name.clone(),
        about: about.join(", "),
        units: garment.units,
        edges,
        in_hand: edges::in_hand(&garment.elastics, speech),
        cloth: String::new(),
        lays: Vec::new(),
        strips,
        strips_use: edges::strips_use(speech),
        setting_up: setting_up(garment, plan),
        work: with_pictures(steps::parts(garment, speech), plan),
        trial: Opening::ALL.map(|o| o.name().to_owned()).to_vec(),
        cautions: cautions(garment, plan),
        measures: measures(garment, speech),
    }
}

/// A picture of each finish where it is first met, and of the roll.
fn with_pictures(parts: Vec<(Part, Option<Opening>)>, plan: &Plan) -> Vec<Part> {
    let mut seen = Vec::new();
    let with = |(mut part, opening): (Part, Option<Opening>)| {
        if let Some(finish) = opening.map(|o| plan.finish.get(o)).filter(|finish| !seen.contains(&finish.kind)) {
            seen.push(finish.kind);
            part.picture = Some(Picture::Edge(finish.kind.profile(&finish.settings)));
        }
        part
    };
    parts.into_iter().map(with).collect()
}

fn setting_up(garment: &Garment, plan: &Plan) -> Vec<String> {
    let needle = garment.order_of_work.iter().find_map(|s| s.needle);
    let needle = needle.map(|needle| format!("Needle: {}.", work::needle(needle)));
    let ends = steps::ends(&garment.order_of_work).map(str::to_owned);
    // At a fold the end of a side seam is cut as it comes to lie: it leans out on one piece, in on the other.
    let is_folded = |o: Opening| plan.finish.get(o).lines.is_folded();
    let bends = Opening::ALL.into_iter().any(is_folded).then(|| BENDS.to_owned());
    needle.into_iter().chain(ends).chain(bends).collect()
}

const SCRAP: &str = "Try stitches on a scrap.";
const STRETCH: &str = "Never stretch cloth under elastic.";
/// What is folded in round a hollow leg is shorter than the edge that its elastic is measured along.
const SPREADS: &str = "Never stretch cloth under elastic; a hollow raw edge spreads by itself.";
const FEED: &str = "Differential feed over 1 keeps a knit from waving.";
const DIALS: &str = "Stitch settings are those of the dials; distances run to the middle of a row.";
const BENDS: &str = "Where raw edges bend, swing them together.";

/// What the pictures show, where there are any.
pub const PICTURES: &str = "Pictures: elastic striped, stitches black, edge dashed, body below.";

/// What the steps ask to heed, each once, and what holds for every pair.
fn cautions(garment: &Garment, plan: &Plan) -> Vec<String> {
    let heeded = |caution: Caution| garment.order_of_work.iter().any(|s| s.caution == Some(caution));
    let said = [
        (Caution::Knife, "Let the overlocker's knife only graze raw edges; it cuts pins too."),
        (Caution::Iron, "Iron warm, tried on a scrap: elastane scorches."),
        (Caution::Cracks, "Stretch straight seams a little while sewing: on a knit they crack."),
        (
            Caution::Grows,
            "Before cutting, sew a sample of each elastic, measured before and after: if longer, have this card made anew.",
        ),
    ];
    let of_steps = said.into_iter().filter(|(caution, _)| heeded(*caution)).map(|(_, text)| text);
    let elastics = || Opening::ALL.into_iter().filter_map(|o| plan.finish.get(o).elastic.as_ref());
    let is_fed = |step: &Step| step.sewing.and_then(|set| set.differential).is_some_and(|feed| feed.to > 1.0);
    let feed = garment.order_of_work.iter().any(is_fed).then_some(FEED);
    let latex = elastics().any(|e| e.elastic.latex == Some(true));
    let spreads = |o: Opening| {
        let finish = plan.finish.get(o);
        o != Opening::Top && finish.lines.is_folded() && finish.elastic.is_some()
    };
    let stretch = if Opening::ALL.into_iter().any(spreads) { SPREADS } else { STRETCH };
    [TRIAL_FIRST, SCRAP, stretch]
        .into_iter()
        .chain(of_steps)
        .chain([DIALS])
        .chain(feed)
        .chain(latex.then_some(LATEX))
        .chain(plan.body.child.then_some(CHILD))
        .chain([TOO_TIGHT])
        .map(str::to_owned)
        .collect()
}

const TRIAL_FIRST: &str = "Wash the cloth; sew a trial / muslin of it first.";
const LATEX: &str = "Rubber latex can cause allergy: ask the wearer, offer latex-free.";
const CHILD: &str = "For a child: softer, looser, no elastic on the skin; local rules decide.";
/// What shows that something is too tight, and who asks first.
pub const TOO_TIGHT: &str = "Deep marks, numbness, tingling, swelling: too tight, loosen it. With pregnancy, diabetes, \
    lymphoedema, trouble with nerves or circulation, or after surgery, ask a clinician.";

/// The body as the sheet gives it.
fn measures(garment: &Garment, speech: Speech) -> Vec<[String; 2]> {
    let given = garment.used.iter().filter(|used| used.source == Source::Given);
    let said = given.filter_map(|used| {
        let key = used.key.to_string();
        let name = key.strip_prefix("body.")?.replace('_', " ");
        let value = match &used.value {
            Value::Mm(mm) => speech.tape(*mm),
            Value::Word(word) => word.clone(),
            Value::Percent(_) | Value::Number(_) => return None,
        };
        Some([name, value])
    });
    said.collect()
}
