//! The port to whatever moves bodies on the floor: plain numbers in, plain numbers out. The yard decides
//! by geometry what is met ([`super::touching`]); behind the port it is pushed apart.

use crate::course::Course;
use crate::math::{Pose, Vec2};
use crate::state::chain::Chain;
use crate::truck::loads::RigidBody;
use crate::yard::loads::{Fallen, Loads};
use crate::yard::setting::Setting;
use crate::yard::trucks::Others;

/// The mean velocity of a tick that the truck's body is carried along, in the single precision of
/// engines: what contacts change of it is told to the last bit.
#[derive(Clone, Copy, Debug, Default, PartialEq)]
pub struct Given {
    /// Of the centre of mass, yard frame, m/s.
    pub velocity: [f32; 2],
    /// Yaw rate, rad/s.
    pub yaw_rate: f32,
}

/// What came of a tick.
#[derive(Clone, Copy, Debug, Default, PartialEq)]
pub struct Carried {
    /// The truck now.
    pub pose: Pose,
    /// What contacts changed of the velocity, yard frame, m/s; exactly zero where there were none.
    pub push: Vec2,
    /// And of the yaw rate, rad/s.
    pub spin: f64,
}

/// A thing on the floor that the truck meets in a tick.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord)]
pub enum Met {
    /// A cone, by its index in the course.
    Cone(usize),
    /// A structure, by its index in the course.
    Structure(usize),
    /// Another truck, by its place among those that are there.
    Other(usize),
    /// A pallet, by its index in the course.
    Pallet(usize),
    /// A fallen case, in the order in which they fell.
    Case(usize),
}

/// Moves bodies on the floor. Every call is made in the same order in every drive.
pub trait Contacts: Sized {
    /// At the start: the truck, then cones, solid structures, pallets and other trucks in the order of the
    /// course, where they stand.
    fn new(setting: &Setting, loads: &Loads, others: &Others) -> Self;

    /// The truck weighs this from now on.
    fn weigh(&mut self, body: &RigidBody);

    /// Pallets have come onto the forks or off them, or may be entered: brings bodies in line.
    fn arrange(&mut self, course: &Course, loads: &Loads);

    /// Something has fallen onto the floor.
    fn drop(&mut self, fallen: &Fallen);

    /// Other trucks are on their way to these places, reached at the end of the tick.
    fn move_others(&mut self, others: &Others);

    /// Friction of the floor on what slides there, for one tick.
    fn rub(&mut self);

    /// One tick: carries the truck along, and pushes what is met and nothing else.
    fn carry(&mut self, given: Given, met: &[Met]) -> Carried;

    /// Where a cone of the course is, m.
    fn cone(&self, index: usize) -> Option<Vec2>;

    /// Where the body of a pallet of the course is, and its speed, m/s.
    fn pallet(&self, index: usize) -> Option<(Pose, f64)>;

    /// Fallen cases in the order in which they fell, with length and width, m.
    fn cases(&self) -> impl Iterator<Item = (Pose, Vec2)>;

    /// The bits of every body that moves on the floor: cones, pallets, cases. What an engine itself
    /// remembers of contacts follows from what was driven so far.
    fn digest(&self, chain: &mut Chain);
}
