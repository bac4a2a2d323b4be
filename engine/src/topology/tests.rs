//! The table in use, a second construction as a table, and tables that are wrong.

use super::*;
use crate::terms::{Opening, Section};

fn ring(opening: Opening) -> Vec<String> {
    let told = |arc: &PairArc| {
        let names = (arc.section.name(), arc.spot.edge, arc.half, arc.spot.way);
        format!("{names:?} {} > {}", arc.from.name(opening), arc.to.name(opening))
    };
    pair().unwrap().arcs(opening).iter().map(told).collect()
}

/// As a person walks round with a finger, wearer's left first.
#[test]
fn the_openings_run_round_the_wearer() {
    assert_eq!(
        ring(Opening::Top),
        [
            r#"("front left", FrontTop, Plus, Along) centre front > left side seam"#,
            r#"("back left", BackTop, Minus, Back) left side seam > centre back"#,
            r#"("back right", BackTop, Plus, Along) centre back > right side seam"#,
            r#"("front right", FrontTop, Minus, Back) right side seam > centre front"#,
        ]
    );
    assert_eq!(
        ring(Opening::LeftLeg),
        [
            r#"("front", FrontLeg, Plus, Along) side seam > front gusset seam"#,
            r#"("gusset", GussetLeg, Plus, Along) front gusset seam > back gusset seam"#,
            r#"("back", BackLeg, Minus, Back) back gusset seam > side seam"#,
        ]
    );
    assert_eq!(ring(Opening::RightLeg)[0], r#"("front", FrontLeg, Minus, Along) side seam > front gusset seam"#);
}

#[test]
fn corners_meet_the_corner_they_are_sewn_to() {
    let told: Vec<_> = pair()
        .unwrap()
        .corners
        .iter()
        .map(|c| (c.seam.edge, c.seam_end, c.opening, c.opening_end, c.mate.edge, c.mate_end))
        .collect();
    use End::{Finish, Start};
    assert_eq!(
        told,
        [
            (EdgeId::FrontSide, Start, 0, Finish, EdgeId::BackSide, Start),
            (EdgeId::FrontSide, Finish, 2, Start, EdgeId::BackSide, Finish),
            (EdgeId::FrontGusset, Start, 2, Finish, EdgeId::GussetFront, Finish),
            (EdgeId::BackSide, Start, 0, Finish, EdgeId::FrontSide, Start),
            (EdgeId::BackSide, Finish, 2, Start, EdgeId::FrontSide, Finish),
            (EdgeId::BackGusset, Start, 2, Finish, EdgeId::GussetBack, Start),
            (EdgeId::GussetFront, Finish, 1, Start, EdgeId::FrontGusset, Start),
            (EdgeId::GussetBack, Start, 1, Finish, EdgeId::BackGusset, Start),
        ]
    );
}

#[test]
fn names_are_told_apart() {
    for seam in SeamId::ALL {
        let (line, side) = (seam.line(), seam.side());
        let sided = [format!("{} {}", side.name(), line.name()), format!("{}, {}", line.name(), side.name())];
        assert!(sided.iter().any(|name| name == seam.name()) && line.on(side) == seam, "{seam:?}");
    }
    for side in Side::ALL {
        for piece in PAIR.pieces {
            for (edge, _) in piece.edges {
                assert_eq!(OutlineEdge::On(side, *edge).name(), format!("{} {}", side.name(), edge.name()));
            }
        }
    }
}

/// A pair whose front is parted along a style line from the leg edge to the centre, and whose
/// pieces are all cut a second time, as the inner layer of a reversible pair.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
enum Piece {
    Upper,
    Lower,
    Back,
    Gusset,
    InnerUpper,
    InnerLower,
    InnerBack,
    InnerGusset,
}

#[derive(Clone, Copy, Debug, PartialEq, Eq)]
enum Edge {
    UpperTop,
    UpperSide,
    UpperLeg,
    UpperStyle,
    LowerStyle,
    LowerLeg,
    LowerGusset,
    BackTop,
    BackSide,
    BackLeg,
    BackGusset,
    GussetFront,
    GussetLeg,
    GussetBack,
}

#[derive(Clone, Copy, Debug, PartialEq, Eq)]
enum Line {
    Side,
    Style,
    FrontGusset,
    BackGusset,
}

type Parted = Construction<Piece, Edge, Line>;

const fn half(
    id: Piece,
    drafted: Side,
    section: Section,
    edges: &'static [(Edge, Lies<Line>)],
) -> HalfPiece<Piece, Edge, Line> {
    HalfPiece { id, drafted, section, cutting: Cutting::OnFoldWhereAlike, edges }
}

const fn sewn(id: Line, a: Edge, (b, way): (Edge, Way), matching: Matching) -> Seam<Edge, Line> {
    Seam { id, runs: [Run { edge: a, way: Way::Along }, Run { edge: b, way }], matching }
}

const UPPER: HalfPiece<Piece, Edge, Line> = half(
    Piece::Upper,
    Side::Left,
    Section::Front,
    &[
        (Edge::UpperTop, Lies::Top),
        (Edge::UpperSide, Lies::Seam(Line::Side)),
        (Edge::UpperLeg, Lies::Leg),
        (Edge::UpperStyle, Lies::Seam(Line::Style)),
    ],
);
const LOWER: HalfPiece<Piece, Edge, Line> = half(
    Piece::Lower,
    Side::Left,
    Section::Front,
    &[
        (Edge::LowerStyle, Lies::Seam(Line::Style)),
        (Edge::LowerLeg, Lies::Leg),
        (Edge::LowerGusset, Lies::Seam(Line::FrontGusset)),
    ],
);
const BACK: HalfPiece<Piece, Edge, Line> = half(
    Piece::Back,
    Side::Right,
    Section::Back,
    &[
        (Edge::BackTop, Lies::Top),
        (Edge::BackSide, Lies::Seam(Line::Side)),
        (Edge::BackLeg, Lies::Leg),
        (Edge::BackGusset, Lies::Seam(Line::BackGusset)),
    ],
);
const GUSSET: HalfPiece<Piece, Edge, Line> = half(
    Piece::Gusset,
    Side::Left,
    Section::Gusset,
    &[
        (Edge::GussetFront, Lies::Seam(Line::FrontGusset)),
        (Edge::GussetLeg, Lies::Leg),
        (Edge::GussetBack, Lies::Seam(Line::BackGusset)),
    ],
);
const SIDE: Seam<Edge, Line> = sewn(Line::Side, Edge::UpperSide, (Edge::BackSide, Way::Along), Matching::Middle);
const STYLE: Seam<Edge, Line> = sewn(Line::Style, Edge::UpperStyle, (Edge::LowerStyle, Way::Back), Matching::Centre);
const FRONT_GUSSET: Seam<Edge, Line> =
    sewn(Line::FrontGusset, Edge::LowerGusset, (Edge::GussetFront, Way::Back), Matching::Centre);
const BACK_GUSSET: Seam<Edge, Line> =
    sewn(Line::BackGusset, Edge::BackGusset, (Edge::GussetBack, Way::Along), Matching::Pair);

const PARTED: Parted = Construction {
    pieces: &[UPPER, LOWER, BACK, GUSSET],
    seams: &[SIDE, STYLE, FRONT_GUSSET, BACK_GUSSET],
    starts: Starts { top: Edge::UpperTop, leg: Edge::UpperLeg },
    copies: &[
        Copied { piece: Piece::InnerUpper, of: Piece::Upper },
        Copied { piece: Piece::InnerLower, of: Piece::Lower },
        Copied { piece: Piece::InnerBack, of: Piece::Back },
        Copied { piece: Piece::InnerGusset, of: Piece::Gusset },
    ],
};

#[test]
fn a_second_construction_is_a_table() {
    let topology = Topology::of(&PARTED).unwrap();
    let edges = |o: Opening| topology.arcs(o).iter().map(|a| (a.spot.edge, a.half, a.spot.way)).collect::<Vec<_>>();
    use Half::{Minus, Plus};
    use Way::{Along, Back};
    assert_eq!(
        edges(Opening::RightLeg),
        [
            (Edge::UpperLeg, Minus, Along),
            (Edge::LowerLeg, Minus, Along),
            (Edge::GussetLeg, Minus, Along),
            (Edge::BackLeg, Plus, Back)
        ]
    );
    assert_eq!(topology.arcs(Opening::RightLeg)[0].to, Junction::Seam(Line::Style, Side::Right));
    assert_eq!(topology.arcs(Opening::Top).len(), 4);
    // The top at the side, the leg at the side, the style line and both gusset seams, from both pieces.
    assert_eq!(topology.corners.len(), 10);
    for seam in &topology.seams {
        for run in seam.runs {
            let found = topology.seam_of(run.edge).unwrap();
            assert!(found.seam == seam.id && found.own.edge == run.edge && found.other.edge != run.edge);
        }
    }
    assert!(topology.seam_of(Edge::UpperLeg).is_none());
}

/// Each fault that a table can have, made on purpose.
#[test]
fn a_wrong_table_is_refused() {
    let fault = |table: Parted| Topology::of(&table).unwrap_err();
    let edge = |edge: Edge| format!("{edge:?}");
    assert_eq!(
        fault(Parted { pieces: &[UPPER, LOWER, BACK], copies: &[], ..PARTED }),
        Fault::EdgeNowhere(edge(Edge::GussetFront))
    );
    assert_eq!(
        fault(Parted { pieces: &[UPPER, LOWER, BACK, GUSSET, BACK], ..PARTED }),
        Fault::PieceTwice("Back".to_owned())
    );
    const AGAIN: HalfPiece<Piece, Edge, Line> = half(Piece::InnerBack, Side::Right, Section::Back, BACK.edges);
    assert_eq!(
        fault(Parted { pieces: &[UPPER, LOWER, BACK, GUSSET, AGAIN], copies: &[], ..PARTED }),
        Fault::EdgeTwice(edge(Edge::BackTop))
    );
    assert_eq!(
        fault(Parted { copies: &[Copied { piece: Piece::InnerBack, of: Piece::InnerGusset }], ..PARTED }),
        Fault::CopyOfNothing("InnerBack".to_owned())
    );
    // A seam that is left out leaves its edges unsewn.
    assert_eq!(
        fault(Parted { seams: &[SIDE, STYLE, FRONT_GUSSET], ..PARTED }),
        Fault::SeamEdge { edge: edge(Edge::BackGusset), seam: "BackGusset".to_owned() }
    );
    // Sewn twice.
    assert!(matches!(
        fault(Parted { seams: &[SIDE, SIDE, STYLE, FRONT_GUSSET, BACK_GUSSET], ..PARTED }),
        Fault::SeamEdge { .. }
    ));
    // Sewn to an edge of another seam.
    const CROSSED: Seam<Edge, Line> =
        sewn(Line::Style, Edge::UpperStyle, (Edge::GussetFront, Way::Back), Matching::Centre);
    assert_eq!(
        fault(Parted { seams: &[SIDE, CROSSED, FRONT_GUSSET, BACK_GUSSET], ..PARTED }),
        Fault::SeamEdge { edge: edge(Edge::GussetFront), seam: "Style".to_owned() }
    );
    // Read the wrong way round, a seam leads from the leg to nowhere.
    const TURNED: Seam<Edge, Line> =
        sewn(Line::Style, Edge::UpperStyle, (Edge::LowerStyle, Way::Along), Matching::Centre);
    assert_eq!(
        fault(Parted { seams: &[SIDE, TURNED, FRONT_GUSSET, BACK_GUSSET], ..PARTED }),
        Fault::RingBroken(edge(Edge::UpperLeg))
    );
    // An edge that is said to lie on the other opening.
    const ASTRAY: HalfPiece<Piece, Edge, Line> = half(
        Piece::Gusset,
        Side::Left,
        Section::Gusset,
        &[
            (Edge::GussetFront, Lies::Seam(Line::FrontGusset)),
            (Edge::GussetLeg, Lies::Top),
            (Edge::GussetBack, Lies::Seam(Line::BackGusset)),
        ],
    );
    assert_eq!(
        fault(Parted { pieces: &[UPPER, LOWER, BACK, ASTRAY], ..PARTED }),
        Fault::RingBroken(edge(Edge::LowerLeg))
    );
    // An opening that begins on another one's edge.
    let starts = Starts { top: Edge::BackLeg, leg: Edge::UpperLeg };
    assert!(matches!(fault(Parted { starts, ..PARTED }), Fault::RingBroken(_)));
    // A piece that is sewn on nowhere.
    const ALONE: HalfPiece<Piece, Edge, Line> =
        half(Piece::Gusset, Side::Left, Section::Gusset, &[(Edge::GussetLeg, Lies::Leg)]);
    const SHORT: Seam<Edge, Line> =
        sewn(Line::FrontGusset, Edge::LowerGusset, (Edge::BackGusset, Way::Along), Matching::Centre);
    const LOW_BACK: HalfPiece<Piece, Edge, Line> = half(
        Piece::Back,
        Side::Right,
        Section::Back,
        &[
            (Edge::BackTop, Lies::Top),
            (Edge::BackSide, Lies::Seam(Line::Side)),
            (Edge::BackLeg, Lies::Leg),
            (Edge::BackGusset, Lies::Seam(Line::FrontGusset)),
        ],
    );
    assert_eq!(
        fault(Parted { pieces: &[UPPER, LOWER, LOW_BACK, ALONE], seams: &[SIDE, STYLE, SHORT], ..PARTED }),
        Fault::EdgeNotMet(edge(Edge::GussetLeg))
    );
}

/// Left and right are told where a piece has both, and a centre, which is there once, is not.
#[test]
fn a_notch_is_named_by_its_piece_edge_and_mark() {
    let seam = |side, mark| NotchId::Seam { piece: PieceId::Front, side, edge: EdgeId::FrontSide, mark }.name();
    assert_eq!(seam(None, SeamMark::Middle), "front: side, middle");
    assert_eq!(seam(Some(Side::Left), SeamMark::Middle), "front: left side, middle");
    assert_eq!(seam(Some(Side::Left), SeamMark::Centre), "front: side, centre");
    let within = |from, share| MarkPlace::Within {
        section: SectionId { opening: Opening::Top, section: Section::Back, side: Side::Right },
        from,
        share,
    };
    let at_centre = within(PairJunction::Centre(PieceId::Back), 0.25);
    let at_seam = within(PairJunction::Seam(SeamLine::Side, Side::Right), 0.5);
    let opening = |place| {
        let (piece, side, edge) = (PieceId::Back, Some(Side::Right), EdgeId::BackTop);
        NotchId::Opening { piece, side, edge, place }.name()
    };
    assert_eq!(opening(at_centre), "back: top, back right, 25 % on from the centre back");
    assert_eq!(opening(at_seam), "back: right top, back right, 50 % on from the right side seam");
    let band = NotchId::Band { piece: PieceId::LegBand, edge: LongEdge::Upper, place: at_seam };
    assert_eq!(band.name(), format!("leg band: {} edge, {}", LongEdge::Upper.name(), at_seam.name()));
    let threading = |end| NotchId::Threading { piece: PieceId::Back, side: None, edge: EdgeId::BackLeg, end };
    assert_eq!(threading(End::Start).name(), "back: leg, threading gap, start");
    assert_eq!(threading(End::Finish).mark_name(), "threading gap, end");
}

#[test]
fn pieces_are_panels_gussets_or_bands() {
    use PieceId::{Back, Front, Gusset, GussetLining, LeftLegBand, LegBand, RightLegBand, TopBand};
    for (pieces, is_gusset, is_band) in [
        (&[Front, Back][..], false, false),
        (&[Gusset, GussetLining], true, false),
        (&[TopBand, LegBand, LeftLegBand, RightLegBand], false, true),
    ] {
        assert!(pieces.iter().all(|p| (p.is_gusset(), p.is_band()) == (is_gusset, is_band)), "{pieces:?}");
    }
}

/// Beyond the first and the last edge of a half lies the centre line.
#[test]
fn beyond_the_ends_of_a_half_is_its_centre() {
    for piece in pair().unwrap().pieces {
        let last = piece.edges.len() - 1;
        assert_eq!((piece.beyond(0, End::Start), piece.beyond(last, End::Finish)), (None, None), "{:?}", piece.id);
        assert_eq!((piece.beyond(0, End::Finish), piece.beyond(last, End::Start)), (Some(1), Some(last - 1)));
    }
}
