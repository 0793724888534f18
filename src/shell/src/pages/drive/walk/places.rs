//! Where one can stop on the way round the truck: the points of the list as they lie in its views, and the one
//! thing beside them that nobody but the workshop touches.

use coneyard_core::checks::list::{ASPECTS, Aspect, CheckList};

/// What one stops at.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub(super) enum Stop {
    /// A point of the list, by its number.
    Point(usize),
    /// The small box that sets how fast the truck drives.
    Settings,
}

/// A stop as it lies in a view.
#[derive(Clone, Copy, Debug, PartialEq)]
pub(super) struct Place {
    /// The view.
    pub(super) view: Aspect,
    /// What there is.
    pub(super) stop: Stop,
    /// Where, in the drawing's own units (1000 wide, 600 high).
    pub(super) at: [f64; 2],
}

impl Place {
    /// The point that lies there.
    pub(super) fn point(&self) -> Option<usize> {
        match self.stop {
            Stop::Point(p) => Some(p),
            Stop::Settings => None,
        }
    }
}

/// Where the box lies in the view of the desk.
const SETTINGS_AT: [f64; 2] = [692.0, 463.0];

/// All places in the order in which somebody walks round, in each view from left to right.
pub(super) fn places(list: &CheckList) -> Vec<Place> {
    let mut all = Vec::new();
    for view in ASPECTS {
        let mut here: Vec<Place> = Vec::new();
        for (p, point) in list.points.iter().enumerate() {
            let lie_here = point.places.iter().filter(|(v, _)| *v == view);
            here.extend(lie_here.map(|(_, at)| Place { view, stop: Stop::Point(p), at: *at }));
        }
        if view == Aspect::Desk && !here.is_empty() {
            here.push(Place { view, stop: Stop::Settings, at: SETTINGS_AT });
        }
        here.sort_by(|a, b| a.at[0].total_cmp(&b.at[0]).then(a.at[1].total_cmp(&b.at[1])));
        all.extend(here);
    }
    all
}

/// So many places on, round and round.
pub(super) fn onward(count: usize, from: usize, by: isize) -> usize {
    if count == 0 { 0 } else { (from as isize + by).rem_euclid(count as isize) as usize }
}

/// The first place of the view that comes so many views on.
pub(super) fn view_onward(places: &[Place], from: usize, by: isize) -> usize {
    let Some(now) = places.get(from).map(|p| p.view) else { return 0 };
    let mut views: Vec<Aspect> = places.iter().map(|p| p.view).collect();
    views.dedup();
    let at = views.iter().position(|v| *v == now).unwrap_or(0);
    let next = views[onward(views.len(), at, by)];
    places.iter().position(|p| p.view == next).unwrap_or(0)
}

/// The next place from here on, this one last, at which a point is open.
pub(super) fn next_open(
    places: &[Place],
    from: usize,
    is_open: impl Fn(usize) -> bool,
) -> Option<usize> {
    (1..=places.len())
        .map(|by| onward(places.len(), from, by as isize))
        .find(|place| places[*place].point().is_some_and(&is_open))
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn the_way_round_comes_by_every_point_from_every_side_and_by_the_box() {
        let list = CheckList::shipped();
        let places = places(&list);
        let sides: usize = list.points.iter().map(|p| p.places.len()).sum();
        assert_eq!(places.len(), sides + 1);
        for p in 0..list.points.len() {
            assert!(places.iter().any(|place| place.stop == Stop::Point(p)), "{p}");
        }
        let views: Vec<Aspect> = places.iter().map(|p| p.view).collect();
        assert!(views.is_sorted_by_key(|v| ASPECTS.iter().position(|a| a == v)));
        assert!(places.iter().any(|p| p.stop == Stop::Settings && p.view == Aspect::Desk));
    }

    #[test]
    fn arrows_lead_on_into_the_next_view_and_round() {
        let places = places(&CheckList::shipped());
        let last = places.len() - 1;
        assert_eq!(onward(places.len(), last, 1), 0);
        assert_eq!(onward(places.len(), 0, -1), last);
        let mut at = 0;
        for view in ASPECTS {
            assert_eq!(places[at].view, view);
            at = view_onward(&places, at, 1);
        }
        assert_eq!(at, 0);
        assert_eq!(places[view_onward(&places, 0, -1)].view, Aspect::Desk);
    }

    #[test]
    fn the_next_open_point_is_not_the_one_in_hand_as_long_as_there_is_another() {
        let places = places(&CheckList::shipped());
        let first = places[0].point().unwrap();
        assert_eq!(
            next_open(&places, 0, |p| p == first).map(|at| places[at].point()),
            Some(Some(first))
        );
        assert_eq!(next_open(&places, 0, |_| true), Some(1));
        assert_eq!(next_open(&places, 0, |_| false), None);
    }
}
