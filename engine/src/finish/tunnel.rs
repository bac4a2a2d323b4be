//! Tunnel (casing): the cloth folded in and stitched, an elastic threaded through.

use super::task::stitch::ZIGZAG;
use super::{Finish, Lines, Settings, Skin, Takes, Task, TurnedIn, Ways};
use crate::finish::profile::{Ply, Profile, SHOWN, Stitches};
use crate::keys::{Field, PerEdge, finish};
use crate::words::both;

pub(super) struct Tunnel;

/// Left open to thread an elastic through, mm, and how much wider than the elastic at least.
/// Common practice.
const GAP: f64 = 30.0;
const PASSING: f64 = 10.0;

fn gap(s: &Settings) -> f64 {
    GAP.max(s.width + PASSING)
}

impl Finish for Tunnel {
    fn name(&self) -> &'static str {
        "tunnel"
    }

    fn summary(&self) -> &'static str {
        "cloth folded in and stitched to a tunnel / casing, plain elastic threaded through it"
    }

    fn takes(&self) -> Takes {
        Takes::Threaded
    }

    fn keys(&self) -> &'static [Field<PerEdge>] {
        &[finish::ROOM, finish::CATCH, finish::TURN]
    }

    fn ways(&self) -> Ways {
        Ways::RoundOnly
    }

    fn lines(&self, s: &Settings) -> Lines {
        let deep = s.width + s.room;
        Lines {
            cut: deep + s.catch + s.turn,
            sewing: Some(-deep),
            second: None,
            measured: Some(-0.5 * deep),
            turned_in: TurnedIn::AtFinishedEdge,
            elastic: Some((-s.width - 0.5 * s.room, -0.5 * s.room)),
            skin: Skin::Covered,
        }
    }

    fn gap(&self, s: &Settings) -> Option<f64> {
        Some(gap(s))
    }

    fn profile(&self, s: &Settings) -> Profile {
        let deep = s.width + s.room;
        let end = -(deep + s.catch);
        let mut course = vec![(end - SHOWN, 3.0), (0.0, 3.0), (0.0, 0.0), (end, 0.0)];
        if s.turn > 0.0 {
            course.extend([(end, 1.0), (end + s.turn, 1.0)]);
        }
        Profile {
            plies: vec![Ply::cloth(&course), Ply::elastic(-s.width - 0.5 * s.room, -0.5 * s.room, 2.0)],
            rows: vec![Stitches::new(-deep, 0.0, 3.0)],
        }
    }

    fn tasks(&self, s: &Settings) -> Vec<Task> {
        let turn = if s.turn > 0.0 { format!("turn the raw edge under by {:.1} mm, ", s.turn) } else { String::new() };
        vec![
            Task::by_hand("fold", format!("{turn}fold the allowance in along the finished edge, and press")),
            Task::row(
                "row 1",
                ZIGZAG,
                -(s.width + s.room),
                format!(
                    "stitch the tunnel / casing, and leave {} open between the two notches in the back, to thread it",
                    both(gap(s))
                ),
            ),
            Task::by_hand("thread", "thread the elastic through with a safety pin, without a twist"),
            Task::by_hand("try on", "try on, and draw the elastic in or let it out until it sits without biting"),
            Task::by_hand("join", "lap the ends of the elastic and sew them to and fro").sewn(ZIGZAG),
            Task::by_hand("close", "let the elastic slip in, and stitch the opening closed").sewn(ZIGZAG),
        ]
    }
}
