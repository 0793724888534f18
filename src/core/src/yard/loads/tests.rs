//! Forks go in, carry and set down, or push.

use crate::course::warehouse::Pallet;
use crate::load::pallet::PalletLoad;
use crate::truck::spec::shipped;
use crate::yard::loads::*;

fn warehouse(mass_of_case: f64) -> Warehouse {
    let text = format!(
        r#"{{ "id": "stack", "source": "Invented.",
          "pallet": {{ "length_m": 1.2, "width_m": 1.0, "height_m": 0.14, "mass_kg": 25 }},
          "case": {{ "length_m": 0.4, "width_m": 0.33, "height_m": 0.3, "mass_kg": {mass_of_case} }},
          "layers": [[3, 3, 3], [3, 3, 3], [3, 3, 3]], "wrapped": false,
          "surfaces": {{ "pallet_on_forks": "wooden_pallet_on_forks",
            "case_on_pallet": "cardboard_on_wooden_pallet", "case_on_case": "cardboard_on_cardboard" }} }}"#
    );
    let load = PalletLoad::parse("load", text.as_bytes()).expect("a valid load");
    let floor = Some(Pose { at: vec2(-5.0, 0.0), heading: 0.0 });
    let pallet = Pallet { id: "one".into(), load: 0, floor };
    Warehouse { loads: vec![load], pallets: vec![pallet], ..Warehouse::default() }
}

/// Backs the forks up to the pallet with its middle `aside` of the truck's, at a fork height, and
/// turned; says whether they may go in.
fn admitted(aside: f64, height: f64, turned: f64) -> bool {
    let w = warehouse(12.0);
    let mut loads = Loads::new(&w, &shipped::single());
    for i in 0..100 {
        let x = f64::from(i) * -0.05;
        let truck = Pose { at: vec2(x, aside), heading: turned };
        loads.forks(truck, height, false, &w);
        if truck.to_body(vec2(-5.0, 0.0)).x > -0.9 {
            break;
        }
    }
    loads.pallets[0].admitted
}

#[test]
fn forks_go_in_low_straight_and_centred_or_push() {
    assert!(admitted(0.0, 0.0, 0.0) && admitted(0.059, 0.015, 0.0));
    assert!(!admitted(0.061, 0.0, 0.0), "beside the middle");
    assert!(!admitted(0.0, 0.016, 0.0), "too high");
    assert!(!admitted(0.0, 0.0, 5.0 * DEG), "askew");
}

#[test]
fn rising_forks_take_it_up_and_lowered_ones_set_it_down_where_they_are() {
    let w = warehouse(12.0);
    let mut loads = Loads::new(&w, &shipped::single());
    let far = Pose { at: vec2(0.0, 0.02), heading: 0.0 };
    let most = loads.forks(far, 0.0, false, &w);
    assert!(most.is_infinite() && loads.carried.is_empty());
    let mut truck = far;
    while truck.at.x > -5.35 {
        truck.at.x -= 0.02;
        loads.forks(truck, 0.0, false, &w);
    }
    assert!(loads.carried.is_empty(), "low forks carry nothing");
    loads.forks(truck, 0.03, true, &w);
    assert_eq!(loads.carried, [0]);
    assert!((loads.mass() - (25.0 + 27.0 * 12.0)).abs() < 1e-9);
    let elsewhere = Pose { at: vec2(3.0, 2.0), heading: 1.0 };
    loads.forks(elsewhere, 0.01, false, &w);
    assert!(loads.carried.is_empty());
    let floor = loads.on_floor().collect::<Vec<_>>();
    // -5 m in the yard was 0.35 m ahead of the axle and 2 cm to its right.
    let expected = elsewhere.to_yard(truck.to_body(vec2(-5.0, 0.0)));
    assert!((floor[0].1.at - expected).length() < 1e-9);
}

#[test]
fn over_the_capacity_the_forks_stay_down_and_it_is_said() {
    let w = warehouse(110.0);
    let mut loads = Loads::new(&w, &shipped::single());
    let mut truck = Pose { at: vec2(0.0, 0.0), heading: 0.0 };
    while truck.at.x > -5.35 {
        truck.at.x -= 0.02;
        loads.forks(truck, 0.0, false, &w);
    }
    assert_eq!(loads.forks(truck, 0.03, true, &w), CARRIES_ABOVE_M);
    assert!(loads.refused.is_some_and(|m| m > 2700.0) && loads.carried.is_empty());
}
