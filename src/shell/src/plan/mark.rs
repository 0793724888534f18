//! What was drawn into the yard beside a note, as lines of a drawing: over the yard of a replay, on the plan of a drive,
//! and on a piece of the plan beside the note. Letters tie marks to notes, since numbers are the findings'.

use coneyard_core::class::mark::Mark;
use coneyard_core::class::note::Note;
use coneyard_core::math::{DEG, Vec2, vec2};
use leptos::prelude::*;

use super::frame::Frame;
use super::ground::Ground;
use super::view::{driven, hatching, layers};

/// A mark with its letter.
pub(crate) type Lettered = (String, Mark);

/// A piece of the plan is so wide and so high, in its own units.
const PIECE: Vec2 = vec2(600.0, 400.0);
/// It shows at least so much from side to side, m.
const WIDE: f64 = 12.0;
/// And at least so much beside the mark, m.
const BESIDE: f64 = 3.0;
/// Length of an arrow's head in a plan, 0.1 mm, and how far each side of it stands off.
const HEAD: f64 = 40.0;
const SIDE: f64 = 28.0 * DEG;

/// The letter of the mark of this place among the marks: A to Z, then AA and so on.
fn letter(n: usize) -> String {
    let (more, last) = (n / 26, (b'A' + (n % 26) as u8) as char);
    match more.checked_sub(1) {
        Some(first) => letter(first) + &last.to_string(),
        None => last.to_string(),
    }
}

/// The letter of each of these notes; None where nothing is drawn beside it.
pub(crate) fn letters(notes: &[Note]) -> Vec<Option<String>> {
    let mut drawn = 0;
    let mut next = |note: &Note| {
        note.mark?;
        drawn += 1;
        Some(letter(drawn - 1))
    };
    notes.iter().map(&mut next).collect()
}

/// The marks of these notes with their letters.
pub(crate) fn lettered(notes: &[Note]) -> Vec<Lettered> {
    let letters = letters(notes).into_iter();
    letters.zip(notes).filter_map(|(letter, note)| Some((letter?, note.mark?))).collect()
}

/// Path data of a mark: where places of the yard are in the drawing, and how long an arrow's head is there.
pub(crate) fn outline(mark: &Mark, at: impl Fn(Vec2) -> Vec2, head: f64) -> String {
    match mark {
        Mark::Ring { at: middle, radius } => {
            let (m, edge) = (at(*middle), at(*middle + vec2(*radius, 0.0)));
            let r = (edge - m).length();
            let (left, across) = (m.x - r, 2.0 * r);
            format!(
                "M{left:.1} {:.1}a{r:.1} {r:.1} 0 1 0 {across:.1} 0a{r:.1} {r:.1} 0 1 0 -{across:.1} 0Z",
                m.y
            )
        }
        Mark::Arrow { from, to } => {
            let (a, b) = (at(*from), at(*to));
            let back = (a - b).normalized() * head;
            let (l, r) = (b + back.rotated(SIDE), b + back.rotated(-SIDE));
            format!(
                "M{:.1} {:.1}L{:.1} {:.1}M{:.1} {:.1}L{:.1} {:.1}L{:.1} {:.1}",
                a.x, a.y, b.x, b.y, l.x, l.y, b.x, b.y, r.x, r.y
            )
        }
    }
}

/// Where its letter stands: on top of a ring, at the beginning of an arrow.
pub(crate) fn letter_at(mark: &Mark, at: impl Fn(Vec2) -> Vec2) -> Vec2 {
    match mark {
        Mark::Ring { at: middle, radius } => {
            let m = at(*middle);
            m - vec2(0.0, (at(*middle + vec2(*radius, 0.0)) - m).length())
        }
        Mark::Arrow { from, .. } => at(*from),
    }
}

/// Marks in a plan. A light line lies under the dark one, so that it is seen on every floor.
pub(super) fn drawn(marks: &[Lettered], frame: &Frame) -> impl IntoView + use<> {
    marks
        .iter()
        .map(|(letter, mark)| {
            let at = |p| frame.at(p);
            let (data, place) = (outline(mark, at, HEAD), letter_at(mark, at));
            view! {
                <g class="drawn" data-letter=letter.clone()>
                    <path class="drawn-halo" d=data.clone() />
                    <path class="drawn-line" d=data />
                    <Letter letter=letter.clone() place />
                </g>
            }
        })
        .collect_view()
}

/// A letter in its disc.
#[component]
fn Letter(letter: String, place: Vec2) -> impl IntoView {
    view! {
        <g transform=format!("translate({:.1} {:.1})", place.x, place.y)>
            <circle class="drawn-disc" r="24" />
            <text class="drawn-letter" dy="0.35em">
                {letter}
            </text>
        </g>
    }
}

/// The yard from above in this frame, round a mark.
fn around(ground: &Ground, mark: &Mark) -> (Frame, Vec2) {
    let wide = (2.0 * (mark.reach() + BESIDE) * PIECE.x / PIECE.y).max(WIDE);
    let (low, high) = (ground.floor.south_west_m, ground.floor.north_east_m);
    let (scale, size) = (PIECE.x / wide, high - low);
    let frame = Frame::within(low, high, size.x * scale, size.y * scale);
    let corner = frame.at(mark.middle()) - PIECE * 0.5;
    (frame, corner)
}

/// A piece of the plan round a mark, with the line that was driven.
#[component]
pub(crate) fn Piece(
    /// The course.
    ground: Ground,
    /// Path of the platform's middle, yard frame, m.
    path: Signal<Vec<[f32; 2]>>,
    /// The mark with its letter.
    lettered: Lettered,
) -> impl IntoView {
    let (frame, corner) = around(&ground, &lettered.1);
    let under = layers(&ground, &frame)
        .into_iter()
        .map(|(class, data)| view! { <path class=class fill=hatching(class) d=data /> })
        .collect_view();
    let (width, height) = (frame.width(), frame.height());
    view! {
        <svg
            class="plan piece"
            viewBox=format!("{:.1} {:.1} {:.0} {:.0}", corner.x, corner.y, PIECE.x, PIECE.y)
            aria-hidden="true"
        >
            <path class="floor" d=format!("M0 0H{width:.1}V{height:.1}H0Z") />
            {under}
            {move || path.with(|path| driven(path, &frame))}
            {drawn(&[lettered], &frame)}
        </svg>
    }
}

#[cfg(test)]
mod tests {
    use coneyard_core::class::mark::Kind;
    use coneyard_core::class::note::Answers;
    use coneyard_core::course::shipped;

    use super::*;

    #[test]
    fn letters_go_on_after_z_and_only_what_is_drawn_has_one() {
        assert_eq!([0, 25, 26, 51, 52].map(letter), ["A", "Z", "AA", "AZ", "BA"]);
        let note = |mark| Note {
            at: 0,
            answers: Answers::Said,
            text: String::new(),
            by: String::new(),
            written: String::new(),
            mark,
        };
        let ring = Some(Mark::put(Kind::Ring, vec2(0.0, 0.0)));
        let notes = [note(ring), note(None), note(ring)];
        assert_eq!(letters(&notes), [Some("A".to_owned()), None, Some("B".to_owned())]);
        assert_eq!(lettered(&notes).len(), 2);
    }

    #[test]
    fn path_data_are_svgs() {
        let twice = |p: Vec2| vec2(10.0 * p.x, -10.0 * p.y);
        let ring = Mark::Ring { at: vec2(1.0, 2.0), radius: 2.0 };
        assert_eq!(
            outline(&ring, twice, 5.0),
            "M-10.0 -20.0a20.0 20.0 0 1 0 40.0 0a20.0 20.0 0 1 0 -40.0 0Z"
        );
        assert_eq!(letter_at(&ring, twice), vec2(10.0, -40.0));
        let arrow = Mark::Arrow { from: vec2(0.0, 1.0), to: vec2(3.0, 1.0) };
        let data = outline(&arrow, twice, 5.0);
        assert!(data.starts_with("M0.0 -10.0L30.0 -10.0M25.6"), "{data}");
        assert_eq!(data.matches("L30.0 -10.0").count(), 2);
    }

    #[test]
    fn a_mark_is_in_the_middle_of_its_piece_and_all_of_it_is_seen() {
        for (file, text) in shipped::ALL {
            let ground = Ground::read(file, text).unwrap();
            for reach in [0.3, 2.0, 15.0] {
                let mark = Mark::Ring { at: ground.floor.south_west_m, radius: reach };
                let (frame, corner) = around(&ground, &mark);
                let middle = frame.at(mark.middle());
                assert!((middle - corner - PIECE * 0.5).length() < 1e-6, "{file}");
                assert!(reach * frame.scale < 0.5 * PIECE.y, "{file}: {reach} m");
            }
        }
    }
}
