//! The one way everything is painted: each point in its own flat colour, nothing else.
//!
//! The engine's own colour material also carries a texture, tone mapping and conversions for every
//! point. A classroom PC that draws without a graphics card pays for each of them, so this shader
//! hands the colour on as it is. It is in linear light, and so is the blending; the space in which
//! pages blend needs a WebGL 2 feature that WebGL 2 does not have (texture views of another
//! format).

use bevy::asset::{Asset, uuid_handle};
use bevy::prelude::*;
use bevy::reflect::TypePath;
use bevy::render::render_resource::AsBindGroup;
use bevy::shader::{Shader, ShaderRef};
use bevy::sprite_render::{AlphaMode2d, Material2d, Material2dPlugin};

const SHADER: Handle<Shader> = uuid_handle!("5a0f6f1c-6c39-4f0e-9d0b-6d8a3e9c7b21");

/// Location 4 is where the engine's vertex shader puts the vertices' colour.
const SOURCE: &str = "
@fragment
fn fragment(@location(4) colour: vec4<f32>) -> @location(0) vec4<f32> {
    return colour;
}
";

/// Flat paint.
#[derive(Asset, AsBindGroup, TypePath, Clone)]
pub(crate) struct Paint {
    /// Nothing shines through: cheaper, for what covers much of the picture.
    opaque: bool,
}

impl Material2d for Paint {
    fn fragment_shader() -> ShaderRef {
        SHADER.into()
    }

    fn alpha_mode(&self) -> AlphaMode2d {
        if self.opaque { AlphaMode2d::Opaque } else { AlphaMode2d::Blend }
    }
}

/// The two paints.
#[derive(Resource)]
pub(crate) struct Paints {
    /// Covers.
    pub(super) opaque: Handle<Paint>,
    /// Lets through what its colour lets through.
    pub(super) blended: Handle<Paint>,
}

/// Makes paint known to the engine.
pub(super) fn add(app: &mut App) {
    app.add_plugins(Material2dPlugin::<Paint>::default());
    let shader = Shader::from_wgsl(SOURCE, "paint.wgsl");
    // It fails only when the handle is taken, and it is new.
    let _ = app.world_mut().resource_mut::<Assets<Shader>>().insert(&SHADER, shader);
    let mut paints = app.world_mut().resource_mut::<Assets<Paint>>();
    let (opaque, blended) =
        (paints.add(Paint { opaque: true }), paints.add(Paint { opaque: false }));
    app.insert_resource(Paints { opaque, blended });
}
