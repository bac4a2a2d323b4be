//! The table of edges, and the block for the trial.

use super::block::{BODY, Block, HEADING};
use crate::font::Face;
use crate::pdf::canvas::{Anchor, Canvas, Setting, Typesetter};
use crate::pdf::style::LineStyle;
use crate::pdf::text::LEADING;
use engine::drawing::card::Card;
use engine::words::card::{COLUMNS, DATE, EDGES, TRIAL, VERDICTS, WHERE};
use kurbo::{Point, Rect, Vec2};

const RULE: LineStyle = LineStyle { width: 0.2, dash: &[], grey: 0.0 };
/// Shares of the width.
const SHARES: [f64; 6] = [0.12, 0.11, 0.20, 0.14, 0.21, 0.22];
/// Over and under the words of a row, mm.
const PAD: f64 = 0.7;

/// What goes onto each edge.
pub(super) struct Table {
    head: Block,
    rows: Vec<Vec<Block>>,
    width: f64,
}

impl Table {
    pub(super) fn of(face: &Face, edges: &[[String; 6]], width: f64) -> Self {
        let row = |cells: [&str; 6], heavy: bool| {
            let cell = |(text, share): (&str, f64)| {
                let block = Block::text(face, text, BODY, share * width - 1.5);
                if heavy { block.heavy() } else { block }
            };
            cells.into_iter().zip(SHARES).map(cell).collect::<Vec<_>>()
        };
        let all = edges.iter().map(|cells| row(cells.each_ref().map(String::as_str), false));
        let head = Block::text(face, EDGES, HEADING, width).heavy();
        Self { head, rows: std::iter::once(row(COLUMNS, true)).chain(all).collect(), width }
    }

    fn row_height(row: &[Block]) -> f64 {
        row.iter().map(Block::height).fold(0.0, f64::max) + 2.0 * PAD
    }

    pub(super) fn height(&self) -> f64 {
        self.head.height() + self.rows.iter().map(|row| Self::row_height(row)).sum::<f64>()
    }

    pub(super) fn draw(&self, canvas: &mut Canvas, setter: &mut Typesetter, at: Point) {
        self.head.draw(canvas, setter, at);
        let mut at = at + Vec2::new(0.0, self.head.height());
        for row in &self.rows {
            let mut x = at.x;
            for (cell, share) in row.iter().zip(SHARES) {
                cell.draw(canvas, setter, Point::new(x, at.y + PAD));
                x += share * self.width;
            }
            at.y += Self::row_height(row);
            canvas.draw_as(RULE);
            canvas.line(at, at + Vec2::new(self.width, 0.0));
        }
    }
}

/// Room for what the trial teaches.
pub(super) struct Trial<'c> {
    card: &'c Card,
    head: Block,
}

/// A row to be written in by hand, mm.
const ROW: f64 = 7.0;
/// A box to tick.
const BOX: f64 = 3.6;
/// Where the columns stand, mm.
const FIRST: f64 = 24.0;
const EACH: f64 = 19.0;

impl<'c> Trial<'c> {
    pub(super) fn of(face: &Face, card: &'c Card) -> Self {
        Self { card, head: Block::text(face, TRIAL, HEADING, 120.0).heavy() }
    }

    pub(super) fn height(&self) -> f64 {
        self.head.height() + LEADING * BODY + self.card.trial.len() as f64 * ROW
    }

    pub(super) fn draw(&self, canvas: &mut Canvas, setter: &mut Typesetter, place: Rect) {
        let (left, width) = (place.x0, place.width());
        self.head.draw(canvas, setter, place.origin());
        let level = Setting::level(BODY);
        let date = Point::new(place.x1 - 50.0, place.y0 + HEADING);
        canvas.text(setter, date, level, DATE);
        canvas.draw_as(RULE);
        canvas.line(date + Vec2::new(10.0, 0.8), date + Vec2::new(50.0, 0.8));
        let mut y = place.y0 + self.head.height();
        let column = |i: usize| left + FIRST + EACH * (i as f64 + 0.5);
        let notes = left + FIRST + EACH * VERDICTS.len() as f64 + 4.0;
        for (i, verdict) in VERDICTS.iter().enumerate() {
            canvas.text(setter, Point::new(column(i), y + BODY), level.anchored(Anchor::Middle), verdict);
        }
        canvas.text(setter, Point::new(notes, y + BODY), level, WHERE);
        y += LEADING * BODY;
        for edge in &self.card.trial {
            let base = y + 0.5 * ROW + 0.35 * BODY;
            canvas.text(setter, Point::new(left, base), level, edge);
            canvas.draw_as(RULE);
            for i in 0..VERDICTS.len() {
                let middle = Point::new(column(i), y + 0.5 * ROW);
                canvas.frame(Rect::from_center_size(middle, (BOX, BOX)));
            }
            canvas.line(Point::new(notes, y + ROW - 0.8), Point::new(left + width, y + ROW - 0.8));
            y += ROW;
        }
    }
}
