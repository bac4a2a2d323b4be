//! What goes onto each edge: the table, the strips, what to have in hand.

use crate::drawing::card::{Strip, StripMark};
use crate::elastic::{ElasticCut, ElasticTotal, Ends, Mark};
use crate::finish::Takes;
use crate::finish::task::{Act, ClothSide, Meets, Up};
use crate::garment::{Garment, OpeningWalk, SectionWalk};
use crate::plan::Plan;
use crate::terms::Opening;
use crate::topology::MarkPlace;
use crate::words::number::{Fineness, short};
use crate::words::{Speech, capital, together};
use crate::work::doing::Doing;

/// The openings, legs that say the same as one.
fn told<T: PartialEq>(garment: &Garment, say: impl Fn(&OpeningWalk) -> Option<T>) -> Vec<(&'static str, T)> {
    let mut out: Vec<(&'static str, T)> = Vec::new();
    for (walk, said) in garment.openings.iter().filter_map(|o| say(o).map(|said| (o, said))) {
        match out.last_mut() {
            Some((name, left))
                if walk.opening == Opening::RightLeg && *left == said && *name == Opening::LeftLeg.name() =>
            {
                *name = EACH_LEG;
            }
            _ => out.push((walk.opening.name(), said)),
        }
    }
    out
}

/// Both legs, where they are alike.
pub(super) const EACH_LEG: &str = "each leg";

/// The rows of the table.
pub(super) fn table(garment: &Garment, plan: &Plan, speech: Speech) -> Vec<[String; 6]> {
    let rows = told(garment, |walk| Some(cells(walk, plan, speech)));
    let named = rows
        .into_iter()
        .map(|(name, [finish, what, cut, ends, feel])| [name.to_owned(), finish, what, cut, ends, feel]);
    named.collect()
}

fn cells(walk: &OpeningWalk, plan: &Plan, speech: Speech) -> [String; 5] {
    let finish = walk.finish.name().to_owned();
    let feel = feel(walk, plan);
    match (&walk.elastic, &walk.band) {
        (Some(e), _) => {
            let cut = e.in_hand.map_or_else(|| speech.tape(e.cut_length), |_| "after sewing".to_owned());
            let picot = plan.finish.get(walk.opening).settings.picot;
            let loops = || format!(", {} of it picots (loops)", speech.tool(picot));
            let picot = if picot > 0.0 { loops() } else { String::new() };
            let what = format!("{}{picot}, {}", speech.tool(e.width), e.name);
            [finish, what, cut, ends(e, plan, walk.opening, speech), feel]
        }
        (None, Some(band)) => {
            let ends = match band.joining.ends {
                Ends::Seamed => format!("seamed {}", band.joining.at.name()),
                _ => format!("in the seam {}", band.joining.at.name()),
            };
            [finish, format!("band, {} doubled", speech.tool(band.width)), speech.tape(band.cut_length), ends, feel]
        }
        (None, None) => [finish, "none".to_owned(), NOTHING.to_owned(), NOTHING.to_owned(), feel],
    }
}

const NOTHING: &str = "–";

fn ends(elastic: &ElasticCut, plan: &Plan, opening: Opening, speech: Speech) -> String {
    let at = elastic.joining.at.name();
    let threaded = plan.finish.get(opening).kind.takes() == Takes::Threaded;
    match elastic.joining.ends {
        Ends::Lapped(by) if threaded => format!("joined when tried on, lapped {}", speech.tool(by)),
        Ends::Lapped(by) => format!("joined, lapped {}, {at}", speech.tool(by)),
        _ => format!("run through {at}"),
    }
}

/// How it is to feel between the fingers while it is sewn on; the classes are common practice.
fn feel(walk: &OpeningWalk, plan: &Plan) -> String {
    match plan.finish.get(walk.opening).kind.takes() {
        Takes::Threaded => "snug, drawn in on the body".to_owned(),
        Takes::Nothing => "lies flat, gives with the cloth".to_owned(),
        Takes::Elastic | Takes::Strip => by_section(&walk.sections),
    }
}

fn by_section(sections: &[SectionWalk]) -> String {
    let pulls = || sections.iter().filter_map(|s| s.stretch.map(|stretch| (s.id.name(), pulled(stretch))));
    let first = pulls().next().map(|(_, how)| how);
    match first.filter(|first| pulls().all(|(_, how)| how == *first)) {
        Some(alike) => alike,
        None => together(pulls()).join("; "),
    }
}

/// A stretch while sewing, in percent, as hands feel it.
fn pulled(percent: f64) -> String {
    let how = match percent {
        p if p.abs() < 0.05 => return "flat, no pull".to_owned(),
        p if p < 0.0 => return "eased in".to_owned(),
        p if p < 5.0 => "just taut",
        p if p < 11.0 => "lightly held",
        p if p < 20.0 => "held",
        _ => "firmly held",
    };
    format!("{how}, {} %", short(percent, 1))
}

/// What one pair takes of each elastic.
pub(super) fn in_hand(totals: &[ElasticTotal], speech: Speech) -> String {
    let each: Vec<String> = totals.iter().map(|t| format!("{} of {}", speech.tape(t.in_hand), t.name)).collect();
    if each.is_empty() { String::new() } else { format!("For one pair: {}.", each.join("; ")) }
}

/// How strips are used; their rows are this long.
pub(super) fn strips_use(speech: Speech) -> String {
    format!(
        "Print at 100 %: the first row is {} long. Lay the elastic along it, slack, cut end at 0; where a row ends, tick \
         the elastic and go on from there in the next. Pin each mark at its number's notch, seam or fold.",
        speech.round(STRIP_ROW.0, STRIP_ROW.1)
    )
}

/// The length of a row, mm and inches: on A4 and on Letter.
pub const STRIP_ROW: (f64, f64) = (180.0, 7.0);

/// One strip for each elastic that is cut to length.
pub(super) fn strips(garment: &Garment, speech: Speech) -> Vec<Strip> {
    let strips = told(garment, |walk| {
        let elastic = walk.elastic.as_ref().filter(|e| e.in_hand.is_none())?;
        Some(strip(elastic, garment.is_marked(walk.opening), speech))
    });
    let headed = strips.into_iter().map(|(name, mut strip)| {
        let often = if name == EACH_LEG { ", cut two" } else { "" };
        let of = Opening::ALL.into_iter().find(|opening| opening.name() == name).unwrap_or(Opening::LeftLeg);
        let lies = lies_on_ruler(garment, of).map(|lies| said(lies, name == EACH_LEG)).unwrap_or_default();
        strip.heading = format!("{}: {}{often}{lies}", capital(name), strip.heading);
        strip
    });
    headed.collect()
}

/// How an elastic whose faces and edges differ lies on its ruler, so that its marks come to their notches: which
/// face is up, and whether its picots point down, to the figures.
///
/// Seen from outside, an opening is walked from mark to mark with the garment to the right hand, the right leg
/// with it to the left; inside out it is the other way round (geometry).
fn lies_on_ruler(garment: &Garment, opening: Opening) -> Option<(&'static str, bool)> {
    let act =
        garment.order_of_work.iter().filter(|step| step.id.opening() == Some(opening)).find_map(|step| match &step
            .doing
        {
            Doing::Pin { lies, .. } => *lies,
            _ => None,
        })?;
    let (face, inwards, from_outside) = match act {
        Act::LayOnRawEdge(side, Up::Soft, Meets::PlainEdge) => ("soft side up", true, side == ClothSide::Right),
        Act::LayOnRawEdge(side, Up::Shown, Meets::PlainEdge) => ("side to be seen up", true, side == ClothSide::Right),
        Act::LayOver(_, Meets::PlainEdge) => ("right side up", false, true),
        _ => return None,
    };
    let is_to_the_right = inwards == (opening != Opening::RightLeg);
    Some((face, is_to_the_right == from_outside))
}

fn said((face, is_down): (&str, bool), is_of_both: bool) -> String {
    let [here, there] = if is_down { ["down", "up"] } else { ["up", "down"] };
    match is_of_both {
        true => format!("; on the ruler {face}, picots {here} for the left leg, {there} for the right"),
        false => format!("; on the ruler {face}, picots {here}"),
    }
}

/// A strip, its heading the elastic alone.
fn strip(elastic: &ElasticCut, is_marked: bool, speech: Speech) -> Strip {
    let mut places: Vec<(f64, &Mark)> = if is_marked {
        elastic.marks.iter().flat_map(|mark| elastic.from_cut_end(mark).into_iter().map(move |at| (at, mark))).collect()
    } else {
        Vec::new()
    };
    places.sort_by(|a, b| a.0.total_cmp(&b.0));
    let tell = |(at, mark): &(f64, &Mark)| {
        let place = junction(&mark.place).map(|name| format!(" {name}")).unwrap_or_default();
        // What lies in a seam is told as its allowance is.
        let fine = if *at < ALLOWANCE { Fineness::Tool } else { Fineness::Tape };
        format!("{}{place} at {}", mark.number, speech.bare(*at, fine))
    };
    let told: Vec<String> = places.iter().map(tell).collect();
    let told = if told.is_empty() { String::new() } else { format!("Marks: {} {}.", told.join("; "), speech.unit()) };
    Strip {
        heading: format!("{} of {}", speech.tape(elastic.cut_length), elastic.name),
        length: elastic.cut_length,
        marks: places.iter().map(|(at, mark)| StripMark { number: mark.number, at: *at }).collect(),
        told,
    }
}

/// No allowance or half of a lap is as wide, mm.
const ALLOWANCE: f64 = 20.0;

/// The name of a mark at a seam or a centre; between them its number is enough.
fn junction(place: &MarkPlace) -> Option<String> {
    matches!(place, MarkPlace::Junction(..)).then(|| place.name())
}
