use core::future::Future;
use core::pin::pin;
use core::task::{Context, Poll, Waker};

use super::contract::{self, attempt, begun, piece, taken};
use super::drive::SIMULATION_UNSAID;
use super::memory::{Memory, Shelf};
use super::whole;
use super::*;
use crate::debrief::{Ending, SkillResult};
use crate::finding::Skill;
use crate::pretest::{Outcome, count};
use crate::rules::SHIPPED;
use crate::run::Run;
use crate::run::Timing;
use crate::run::file::SIMULATION;
use crate::state::chain::Digest;

/// What a keeper answers that never waits.
fn now<T>(asked: impl Future<Output = T>) -> T {
    match pin!(asked).poll(&mut Context::from_waker(Waker::noop())) {
        Poll::Ready(answer) => answer,
        Poll::Pending => panic!("this keeper waits for something"),
    }
}

mod keeping;
mod records;
mod results;
mod truth;
mod whole_runs;
