//! The simplest floor: the truck goes where its wheels carry it, and nothing pushes back. For what can
//! be tested without an engine.

use crate::course::Course;
use crate::math::{Pose, Vec2, vec2};
use crate::state::State;
use crate::state::chain::Chain;
use crate::time::DT;
use crate::truck::loads::RigidBody;
use crate::yard::contacts::{Carried, Contacts, Given, Met};
use crate::yard::loads::{Fallen, Loads, Where};
use crate::yard::setting::Setting;
use crate::yard::trucks::Others;

/// Where everything stands.
#[derive(Clone, Debug)]
pub struct Level {
    truck: Pose,
    /// Centre of mass, body frame, m: what is carried along.
    com: Vec2,
    cones: Vec<Vec2>,
    pallets: Vec<Option<Pose>>,
    cases: Vec<(Pose, Vec2)>,
}

impl Contacts for Level {
    fn new(setting: &Setting, loads: &Loads, _others: &Others) -> Self {
        let mut level = Self {
            truck: setting.course.spawn,
            com: setting.body.com,
            cones: setting.course.cones.clone(),
            pallets: Vec::new(),
            cases: Vec::new(),
        };
        level.arrange(&setting.course, loads);
        level
    }

    fn weigh(&mut self, body: &RigidBody) {
        self.com = body.com;
    }

    fn arrange(&mut self, _course: &Course, loads: &Loads) {
        let place = |at: &Where| match at {
            Where::Floor(pose) | Where::Fallen(pose) => Some(*pose),
            Where::Forks => None,
        };
        self.pallets = loads.pallets.iter().map(|p| place(&p.at)).collect();
    }

    fn drop(&mut self, fallen: &Fallen) {
        let lies = match fallen.pallet {
            Some(pallet) => self.pallets.get_mut(pallet as usize),
            None => {
                self.cases.push((fallen.pose, fallen.size));
                None
            }
        };
        if let Some(lies) = lies {
            *lies = Some(fallen.pose);
        }
    }

    fn move_others(&mut self, _others: &Others) {}

    fn rub(&mut self) {}

    fn carry(&mut self, given: Given, _met: &[Met]) -> Carried {
        let [x, y] = given.velocity.map(f64::from);
        let com = self.truck.to_yard(self.com) + vec2(x, y) * DT;
        let heading = self.truck.heading + f64::from(given.yaw_rate) * DT;
        self.truck = Pose { at: com - self.com.rotated(heading), heading };
        Carried { pose: self.truck, ..Carried::default() }
    }

    fn cone(&self, index: usize) -> Option<Vec2> {
        self.cones.get(index).copied()
    }

    fn pallet(&self, index: usize) -> Option<(Pose, f64)> {
        Some((self.pallets.get(index).copied()??, 0.0))
    }

    fn cases(&self) -> impl Iterator<Item = (Pose, Vec2)> {
        self.cases.iter().copied()
    }

    fn digest(&self, chain: &mut Chain) {
        // The truck's own place is the yard's.
        let Self { truck: _, com: _, cones, pallets, cases } = self;
        cones.digest(chain);
        pallets.digest(chain);
        for (pose, size) in cases {
            pose.digest(chain);
            size.digest(chain);
        }
    }
}
