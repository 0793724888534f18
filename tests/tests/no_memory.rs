//! A tick asks for hardly any memory once a drive is under way: what it needs is kept from one tick to the
//! next. A test program of its own, because it counts what the whole program asks for.

use coneyard_sim::{Session, ride};
use coneyard_tests::drives::{offered, setup};

/// Ticks of the first second, in which room is found.
const FIRST: usize = 64;

#[test]
fn a_tick_asks_for_hardly_any_memory() {
    let mut most = (0.0, String::new());
    for (course, truck) in offered() {
        let setup = setup(course, &truck, 1);
        let run = ride(&setup, "model").expect("a shipped course can be driven");
        let mut session = Session::new(&setup).expect("it could be driven before");
        let inputs: Vec<_> = run.each_tick().collect();
        let (first, rest) = inputs.split_at(FIRST);
        for input in first {
            session.step(input.clone());
        }
        let counted = allocation_counter::measure(|| {
            for input in rest {
                session.step(input.clone());
            }
        });
        let a_tick = counted.count_total as f64 / rest.len() as f64;
        println!("{course}, {truck}: {a_tick:.3} times a tick");
        if a_tick > most.0 {
            most = (a_tick, format!("{course}, {truck}"));
        }
    }
    assert!(most.0 < 0.5, "{}: {:.2} times a tick", most.1, most.0);
}
