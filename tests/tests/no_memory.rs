//! Once a drive is under way the yard asks for hardly any memory in a tick: what it needs is kept from one
//! tick to the next. What an engine asks for behind the yard's port is its own. A test program of its own,
//! because what the whole program asks for is counted.

use coneyard_core::drive::Drive;
use coneyard_core::yard::level::Level;
use coneyard_sim::ride;
use coneyard_tests::drives::{offered, setup};

/// Ticks of the first second, in which room is found.
const FIRST: usize = 64;

/// Now and then there is more to keep: a finding, or controls that were not held before.
const A_TICK_AT_MOST: f64 = 0.15;

#[test]
fn a_tick_asks_for_hardly_any_memory() {
    let mut most = (0.0, String::new());
    for (course, truck) in offered() {
        let setup = setup(course, &truck, 1);
        let run = ride(&setup, "model").expect("a shipped course can be driven");
        let mut drive = Drive::<Level>::new(&setup).expect("it could be driven before");
        let inputs: Vec<_> = run.each_tick().collect();
        let (first, rest) = inputs.split_at(FIRST);
        for input in first {
            drive.step(input.clone());
        }
        let counted = allocation_counter::measure(|| {
            for input in rest {
                drive.step(input.clone());
            }
        });
        let a_tick = counted.count_total as f64 / rest.len() as f64;
        println!("{course}, {truck}: {a_tick:.3} times a tick");
        if a_tick > most.0 {
            most = (a_tick, format!("{course}, {truck}"));
        }
    }
    assert!(most.0 < A_TICK_AT_MOST, "{}: {:.3} times a tick", most.1, most.0);
}
