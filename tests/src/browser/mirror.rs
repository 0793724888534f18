//! The browser's drive, driven again natively while it goes on: what the page does not tell (where
//! the truck is) is known exactly, since both compute the same bits.

use coneyard_core::controls::Controls;
use coneyard_core::desk::Status;
use coneyard_core::moment::Moment;
use coneyard_core::run::DriveSetup;
use coneyard_sim::Session;
use serde_json::Value;

use super::Yard;

/// Lets the test see the controls that the page takes from the yard, and hands every one of them
/// on to the page. Everything here is a script in the page; the drive itself is not touched.
const LISTEN: &str = "
    const take = coneyard.take_controls;
    const forPage = [];
    const forTest = [];
    const drain = () => { const fresh = take(); forPage.push(...fresh); forTest.push(...fresh); };
    coneyard.take_controls = () => { drain(); return Uint32Array.from(forPage.splice(0)); };
    globalThis.coneyard_test = () => {
        const status = JSON.parse(coneyard.status());
        if (status.mode === 'drive') drain();
        return { status, pairs: forTest.splice(0) };
    };";

/// The native twin of the drive that is open in the page.
pub struct Mirror {
    session: Session,
}

impl Mirror {
    /// Begins to listen. Call it in a fresh document, before the drive page is opened.
    pub async fn listen(yard: &Yard) {
        yard.script(LISTEN, Vec::new()).await.expect("the page has its yard calls");
    }

    /// A twin at the start of a drive.
    pub fn new(setup: &DriveSetup) -> Self {
        Self { session: Session::new(setup).expect("a shipped course can be driven") }
    }

    /// Brings the twin to where the page's drive is now; returns what the page says of it.
    pub async fn catch_up(&mut self, yard: &Yard) -> Status {
        self.catch_up_seeing(yard, |_| {}).await
    }

    /// The same, with every moment on the way shown to somebody.
    pub async fn catch_up_seeing(&mut self, yard: &Yard, mut see: impl FnMut(&Moment)) -> Status {
        let now = yard.script("return coneyard_test();", Vec::new()).await;
        let now = now.expect("the yard tells its status");
        for pair in numbers(&now["pairs"]).chunks(2) {
            let &[bits, ticks] = pair else { panic!("controls come in pairs, not {pair:?}") };
            let controls = Controls::from_bits(bits).expect("the page records valid controls");
            for _ in 0..ticks {
                self.session.step(controls);
                see(self.session.moment());
            }
        }
        serde_json::from_value(now["status"].clone()).expect("a status of the shared type")
    }

    /// What is true now in the twin, and so in the page.
    pub fn moment(&self) -> &Moment {
        self.session.moment()
    }
}

fn numbers(list: &Value) -> Vec<u32> {
    serde_json::from_value(list.clone()).expect("a list of whole numbers")
}
