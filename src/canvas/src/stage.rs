//! The stage: the engine on its canvas. It fits its parent, honours the device's pixel ratio,
//! reads no input, and draws only while something moves.

use core::cell::{Cell, RefCell};
use core::time::Duration;

use bevy::a11y::AccessibilityPlugin;
use bevy::app::TaskPoolPlugin;
use bevy::camera::CameraPlugin;
use bevy::core_pipeline::CorePipelinePlugin;
use bevy::diagnostic::FrameCountPlugin;
use bevy::image::ImagePlugin;
use bevy::input::InputPlugin;
use bevy::mesh::MeshPlugin;
use bevy::prelude::*;
use bevy::render::RenderPlugin;
use bevy::render::error_handler::{ErrorType, RenderError, RenderErrorHandler, RenderErrorPolicy};
use bevy::render::settings::RenderCreation;
use bevy::sprite_render::{Materials2dPlugin, Mesh2dRenderPlugin};
use bevy::time::TimePlugin;
use bevy::transform::TransformPlugin;
use bevy::window::{ExitCondition, WindowOccluded, WindowPlugin, WindowResized};
use bevy::winit::{
    EventLoopProxy, EventLoopProxyWrapper, UpdateMode, WinitPlugin, WinitSettings, WinitUserEvent,
};
use wasm_bindgen::JsCast;

use crate::canvas::with_canvas;
use crate::coarse::share;
use crate::draw::{Coarse, DrawPlugin, Drawing, SinceLast};
use crate::streak::Streaks;
use crate::warm;

thread_local! {
    static WAKER: RefCell<Option<EventLoopProxy<WinitUserEvent>>> = const { RefCell::new(None) };
    static FAILED: Cell<bool> = const { Cell::new(false) };
}

/// Pictures that are still drawn after everything has come to rest, so that what was just put up
/// has reached the screen.
const SETTLING: u32 = 8;

#[derive(Resource, Default)]
struct Settling(u32);

/// Starts the engine on the canvas that the selector names.
///
/// # Errors
/// One sentence when there is no such canvas or no WebGL 2.
pub(crate) fn start(selector: &str) -> Result<(), String> {
    if WAKER.with_borrow(Option::is_some) {
        return Err("The yard is already mounted; keep its canvas in the page.".into());
    }
    check(selector)?;
    let window = Window {
        title: "Coneyard".into(),
        canvas: Some(selector.into()),
        fit_canvas_to_parent: true,
        // The pages read the devices; the canvas takes nothing away from them.
        prevent_default_event_handling: false,
        focused: false,
        ..default()
    };
    let mut app = App::new();
    add_engine(&mut app, window);
    app.add_plugins(DrawPlugin)
        // Until the renderer is ready, which the browser decides, the loop must not fall asleep.
        .insert_resource(WinitSettings::continuous())
        .init_resource::<Settling>()
        .insert_resource(RenderErrorHandler(after_error))
        .add_systems(Startup, (keep_waker, leave_tab_order))
        .add_systems(Update, (advance, thin_out).chain().before(Drawing))
        .add_systems(Last, rest)
        .run();
    Ok(())
}

/// The parts of the engine that a flat picture needs, one by one: the default set also brings
/// sprites, tiles and colour materials, which a browser would have to load.
fn add_engine(app: &mut App, window: Window) {
    app.add_plugins((
        TaskPoolPlugin::default(),
        FrameCountPlugin,
        TimePlugin,
        TransformPlugin,
        InputPlugin,
        WindowPlugin {
            primary_window: Some(window),
            exit_condition: ExitCondition::DontExit,
            close_when_requested: false,
            ..default()
        },
        AccessibilityPlugin,
        AssetPlugin::default(),
        WinitPlugin::default(),
    ));
    app.add_plugins((
        RenderPlugin::default(),
        ImagePlugin::default(),
        MeshPlugin,
        CameraPlugin,
        CorePipelinePlugin,
        Mesh2dRenderPlugin,
        Materials2dPlugin,
    ));
}

/// A browser may take the graphics card away at any time, and gives it back. Any other error of the
/// renderer would come again with every picture: it is told to the console, once, and the picture
/// stands still; drives and replays go on.
fn after_error(error: &RenderError, _: &mut World, _: &mut World) -> RenderErrorPolicy {
    if error.ty == ErrorType::DeviceLost {
        return RenderErrorPolicy::Recover(RenderCreation::default());
    }
    if !FAILED.replace(true) {
        let words: Vec<&str> = error.description.split_whitespace().collect();
        let line = format!("The yard cannot be drawn: {:?} {}", error.ty, words.join(" "));
        web_sys::console::error_1(&line.into());
    }
    RenderErrorPolicy::StopRendering
}

/// What the engine would otherwise panic about.
fn check(selector: &str) -> Result<(), String> {
    if canvas_at(selector).is_none() {
        return Err(format!("There is no canvas at {selector:.60} in this page."));
    }
    // Asked of another canvas: a context that was taken once cannot be taken again.
    let trial = web_sys::window()
        .and_then(|w| w.document())
        .and_then(|d| d.create_element("canvas").ok())
        .and_then(|c| c.dyn_into::<web_sys::HtmlCanvasElement>().ok())
        .and_then(|c| c.get_context("webgl2").ok().flatten());
    if trial.is_none() {
        return Err("This browser cannot draw the yard: it has no WebGL 2. Switch on hardware \
                    acceleration, or use another browser."
            .into());
    }
    Ok(())
}

/// Has the engine draw again: something was opened, closed or set.
pub(crate) fn wake() {
    WAKER.with_borrow(|waker| {
        if let Some(waker) = waker {
            // It fails only when the event loop is gone with the page.
            let _ = waker.send_event(WinitUserEvent::WakeUp);
        }
    });
}

fn keep_waker(proxy: Res<EventLoopProxyWrapper>) {
    WAKER.set(Some((**proxy).clone()));
}

/// The window library makes the canvas a stop for the tab key; nothing on it can be pressed.
fn leave_tab_order(window: Single<&Window>) {
    let canvas = window.canvas.as_deref().and_then(canvas_at);
    if let Some(canvas) = canvas {
        // A browser refuses no attribute of this name.
        let _ = canvas.set_attribute("tabindex", "-1");
    }
}

fn canvas_at(selector: &str) -> Option<web_sys::HtmlCanvasElement> {
    let document = web_sys::window()?.document()?;
    document.query_selector(selector).ok()??.dyn_into().ok()
}

/// Where drawing is slow, tells the styles how much smaller the canvas may be than what it is shown as:
/// `.stage` has the share, and while something is driven the styles go by it.
fn thin_out(
    window: Single<&Window>,
    mut coarse: ResMut<Coarse>,
    mut resized: MessageReader<WindowResized>,
) {
    let was_resized = resized.read().count() > 0;
    if !was_resized && !coarse.is_changed() {
        return;
    }
    let stage = window.canvas.as_deref().and_then(canvas_at);
    let Some(stage) = stage.and_then(|c| c.closest(".stage").ok().flatten()) else {
        return;
    };
    let ratio = web_sys::window().map_or(1.0, |w| w.device_pixel_ratio());
    let size = [stage.client_width(), stage.client_height()].map(|px| f64::from(px) * ratio);
    let is_driven = stage.closest(".driving").ok().flatten().is_some();
    let share = if coarse.on && is_driven { share(size[0], size[1]) } else { 1.0 };
    if share != coarse.share {
        coarse.share = share;
        // A property, since the site lets no style stand in a page; a browser refuses none of this name.
        if let Ok(stage) = stage.dyn_into::<web_sys::HtmlElement>() {
            let _ = stage.style().set_property("--share", &share.to_string());
        }
    }
}

/// Nothing moves: wait until woken.
fn resting() -> WinitSettings {
    let wait = UpdateMode::reactive_low_power(Duration::MAX);
    WinitSettings { focused_mode: wait, unfocused_mode: wait }
}

/// Lets real time pass for what is open, and hands the draw systems what to draw.
fn advance(
    mut commands: Commands,
    time: Res<Time<Real>>,
    mut hidden: MessageReader<WindowOccluded>,
    mut resized: MessageReader<WindowResized>,
    mut settling: ResMut<Settling>,
    mut since: ResMut<SinceLast>,
    settings: Res<WinitSettings>,
) {
    // While it was hidden no time passed in the yard.
    let was_hidden = hidden.read().count() > 0;
    let was_resized = resized.read().count() > 0;
    let ran_on = settings.focused_mode == UpdateMode::Continuous;
    since.0 = (ran_on && !was_hidden).then(|| time.delta_secs());
    let elapsed = if was_hidden { 0.0 } else { time.delta_secs_f64() };
    let worked = with_canvas(|yard| {
        yard.advance(elapsed);
        if let Some(scene) = yard.take_scene() {
            match scene {
                Some(scene) => commands.insert_resource(scene),
                None => commands.remove_resource::<crate::picture::Scene>(),
            }
        }
        if let Some(streaks) = yard.take_streaks() {
            commands.insert_resource(Streaks(streaks));
        }
        if let Some(shown) = yard.shown() {
            commands.insert_resource(shown);
        }
        if yard.take_stirred() || yard.moving() || was_hidden || was_resized {
            settling.0 = SETTLING;
        }
    });
    // After an error nothing moves any more; the exports say so to whoever calls.
    worked.unwrap_or_default();
}

/// Draws on while something moves, a few pictures longer, then rests.
fn rest(mut settling: ResMut<Settling>, mut settings: ResMut<WinitSettings>) {
    let warming = settling.0 == 0 && warm::slice();
    settling.0 = settling.0.saturating_sub(1);
    let wanted = if settling.0 > 0 || warming { WinitSettings::continuous() } else { resting() };
    if settings.focused_mode != wanted.focused_mode {
        *settings = wanted;
    }
}
