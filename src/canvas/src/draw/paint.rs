//! The one way everything is painted: each point in its own flat colour, nothing else.
//!
//! The engine's own colour material also carries a texture, tone mapping and conversions for every
//! point. A classroom PC that draws without a graphics card pays for each of them, so this shader
//! hands the colour on as it is. It is in linear light, and so is the blending; the space in which
//! pages blend needs a WebGL 2 feature that WebGL 2 does not have (texture views of another
//! format).

use bevy::asset::{Asset, uuid_handle};
use bevy::mesh::MeshVertexBufferLayoutRef;
use bevy::prelude::*;
use bevy::reflect::TypePath;
use bevy::render::render_resource::AsBindGroup;
use bevy::render::render_resource::{RenderPipelineDescriptor, SpecializedMeshPipelineError};
use bevy::shader::{Shader, ShaderRef};
use bevy::sprite_render::{
    AlphaMode2d, Material2d, Material2dKey, Material2dPipeline, Material2dPlugin,
};

const SHADER: Handle<Shader> = uuid_handle!("5a0f6f1c-6c39-4f0e-9d0b-6d8a3e9c7b21");

const HATCHED: Handle<Shader> = uuid_handle!("0d5d7c0e-7a34-4c11-8b5f-2f5f0a7c9e64");

/// Location 4 is where the engine's vertex shader puts the vertices' colour.
const SOURCE: &str = "
@fragment
fn fragment(@location(4) colour: vec4<f32>) -> @location(0) vec4<f32> {
    return colour;
}
";

/// The same with slanting stripes in which more of what lies below is seen: one every 1.1 m along either axis
/// (0.78 m apart), 0.3 of them wide. They lie on the floor: location 0 is where in the yard. Their edges are as
/// soft as a point of the picture is wide.
const HATCH: &str = "
@fragment
fn fragment(
    @location(0) place: vec4<f32>,
    @location(4) colour: vec4<f32>,
) -> @location(0) vec4<f32> {
    let along = (place.x + place.y) / 1.1;
    let soft = max(fwidth(along), 0.0001);
    let stripe = 1.0 - smoothstep(0.15 - soft, 0.15 + soft, abs(fract(along) - 0.5));
    return vec4<f32>(colour.rgb, colour.a * (1.0 - 0.2 * stripe));
}
";

/// What a paint does with what lies below.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Hash)]
pub(crate) enum Cover {
    /// Nothing shines through: cheaper, for what covers much of the picture.
    Opaque,
    /// As much as the colour lets through.
    Blended,
    /// The same, hatched.
    Hatched,
}

/// Flat paint.
#[derive(Asset, AsBindGroup, TypePath, Clone)]
#[bind_group_data(Cover)]
pub(crate) struct Paint {
    cover: Cover,
}

impl From<&Paint> for Cover {
    fn from(paint: &Paint) -> Self {
        paint.cover
    }
}

impl Material2d for Paint {
    fn fragment_shader() -> ShaderRef {
        SHADER.into()
    }

    fn alpha_mode(&self) -> AlphaMode2d {
        if self.cover == Cover::Opaque { AlphaMode2d::Opaque } else { AlphaMode2d::Blend }
    }

    fn specialize(
        _: &Material2dPipeline,
        descriptor: &mut RenderPipelineDescriptor,
        _: &MeshVertexBufferLayoutRef,
        key: Material2dKey<Self>,
    ) -> Result<(), SpecializedMeshPipelineError> {
        if let (Cover::Hatched, Some(fragment)) = (key.bind_group_data, &mut descriptor.fragment) {
            fragment.shader = HATCHED;
        }
        Ok(())
    }
}

/// The paints.
#[derive(Resource)]
pub(crate) struct Paints {
    /// Covers.
    pub(super) opaque: Handle<Paint>,
    /// Lets through what its colour lets through.
    pub(super) blended: Handle<Paint>,
    /// Lets through more in stripes.
    pub(super) hatched: Handle<Paint>,
}

/// Makes paint known to the engine.
pub(super) fn add(app: &mut App) {
    app.add_plugins(Material2dPlugin::<Paint>::default());
    for (handle, source, name) in [(SHADER, SOURCE, "paint.wgsl"), (HATCHED, HATCH, "hatch.wgsl")] {
        let shader = Shader::from_wgsl(source, name);
        // It fails only when the handle is taken, and it is new.
        let _ = app.world_mut().resource_mut::<Assets<Shader>>().insert(&handle, shader);
    }
    let mut paints = app.world_mut().resource_mut::<Assets<Paint>>();
    let [opaque, blended, hatched] =
        [Cover::Opaque, Cover::Blended, Cover::Hatched].map(|cover| paints.add(Paint { cover }));
    app.insert_resource(Paints { opaque, blended, hatched });
}
