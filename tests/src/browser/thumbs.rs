//! Real touches of several fingers, by the browser's own protocol: the page cannot tell them from a
//! person's.

use std::collections::BTreeMap;

use serde_json::{Value, json};

use super::Yard;

/// A place in the page, CSS pixels to the right and down.
pub type Place = (f64, f64);

/// Fingers on the screen, by number.
pub type Fingers = BTreeMap<u32, Place>;

/// A screen that is touched.
#[derive(Default)]
pub struct Screen {
    down: Fingers,
}

impl Screen {
    /// Makes the page believe that it is on a device that is touched, of this size.
    pub async fn of(yard: &Yard, size: super::Size) -> Self {
        yard.resize(size).await;
        let touching = json!({ "enabled": true, "maxTouchPoints": 5 });
        yard.devtools("Emulation.setTouchEmulationEnabled", touching).await;
        Self::default()
    }

    /// Has exactly these fingers on the screen: what is not among them lifts, what is new lands, the others
    /// slide.
    pub async fn touch(&mut self, yard: &Yard, fingers: &Fingers) {
        if self.down == *fingers {
            return;
        }
        let (stays, lifts): (Fingers, Fingers) =
            self.down.iter().map(copied).partition(|(id, _)| fingers.contains_key(id));
        if !lifts.is_empty() {
            dispatch(yard, "touchEnd", &lifts).await;
        }
        let moved: Fingers =
            fingers.iter().filter(|(id, _)| stays.contains_key(id)).map(copied).collect();
        if moved != stays {
            dispatch(yard, "touchMove", &moved).await;
        }
        if fingers.len() > moved.len() {
            dispatch(yard, "touchStart", fingers).await;
        }
        self.down.clone_from(fingers);
    }
}

fn copied((id, place): (&u32, &Place)) -> (u32, Place) {
    (*id, *place)
}

async fn dispatch(yard: &Yard, kind: &str, fingers: &Fingers) {
    let point = |(id, (x, y)): (&u32, &Place)| json!({ "x": x, "y": y, "id": id });
    let points: Vec<Value> = fingers.iter().map(point).collect();
    let event = json!({ "type": kind, "touchPoints": points });
    yard.devtools("Input.dispatchTouchEvent", event).await;
}

/// The middle of an element, after it has come.
pub async fn middle(yard: &Yard, css: &str) -> Place {
    yard.wait_for(css).await;
    let body = "const area = document.querySelector(args[0]).getBoundingClientRect();
        return [area.left + area.width / 2, area.top + area.height / 2];";
    let middle = yard.script(body, vec![css.into()]).await.expect("the element is there");
    let of = |i: usize| middle[i].as_f64().expect("a number");
    (of(0), of(1))
}
