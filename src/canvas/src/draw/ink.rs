//! Ink: vector shapes gathered into one mesh, each with its own flat colour.
//!
//! Everything in the yard is drawn with it. One material serves all meshes, because the colour
//! stands in the vertices; so the whole yard is a handful of draw calls.

use bevy::asset::RenderAssetUsages;
use bevy::math::Vec2;
use bevy::mesh::{Indices, Mesh, PrimitiveTopology};
use lyon_tessellation::math::{Point, point};
use lyon_tessellation::path::Path;
use lyon_tessellation::{
    BuffersBuilder, FillOptions, FillRule, FillTessellator, FillVertex, FillVertexConstructor,
    LineCap, LineJoin, StrokeOptions, StrokeTessellator, StrokeVertex, StrokeVertexConstructor,
    VertexBuffers,
};

use crate::palette::Colour;

/// Curves are drawn with chords at most this far from the true curve, m.
const TOLERANCE: f32 = 0.002;

/// Shapes drawn so far, the later ones over the earlier ones. Metres.
#[derive(Default)]
pub(crate) struct Ink {
    buffers: VertexBuffers<Vertex, u32>,
}

#[derive(Clone, Copy, Default)]
struct Vertex {
    at: [f32; 3],
    colour: [f32; 4],
}

struct Tint([f32; 4]);

impl Tint {
    fn vertex(&self, p: Point) -> Vertex {
        Vertex { at: [p.x, p.y, 0.0], colour: self.0 }
    }
}

impl FillVertexConstructor<Vertex> for Tint {
    fn new_vertex(&mut self, vertex: FillVertex) -> Vertex {
        self.vertex(vertex.position())
    }
}

impl StrokeVertexConstructor<Vertex> for Tint {
    fn new_vertex(&mut self, vertex: StrokeVertex) -> Vertex {
        self.vertex(vertex.position())
    }
}

/// A point of the drawing library.
fn pt(p: Vec2) -> Point {
    point(p.x, p.y)
}

/// A closed or open run of straight lines.
fn polyline(points: &[Vec2], closed: bool) -> Path {
    let mut path = Path::builder();
    if let Some((first, rest)) = points.split_first() {
        path.begin(pt(*first));
        for p in rest {
            path.line_to(pt(*p));
        }
        path.end(closed);
    }
    path.build()
}

impl Ink {
    /// Fills outlines; where they overlap an even number of times there is a hole.
    pub(crate) fn areas<'a>(
        &mut self,
        outlines: impl IntoIterator<Item = &'a [Vec2]>,
        colour: Colour,
    ) {
        let mut path = Path::builder();
        for outline in outlines {
            let Some((first, rest)) = outline.split_first() else {
                continue;
            };
            path.begin(pt(*first));
            for p in rest {
                path.line_to(pt(*p));
            }
            path.end(true);
        }
        self.fill(&path.build(), colour);
    }

    /// Fills one outline.
    pub(crate) fn area(&mut self, outline: &[Vec2], colour: Colour) {
        self.areas([outline], colour);
    }

    /// Fills a path. A shape that cannot be filled (too few points) leaves nothing.
    pub(crate) fn fill(&mut self, path: &Path, colour: Colour) {
        let options = FillOptions::tolerance(TOLERANCE).with_fill_rule(FillRule::EvenOdd);
        let mut out = BuffersBuilder::new(&mut self.buffers, Tint(colour.linear()));
        let _ = FillTessellator::new().tessellate_path(path, &options, &mut out);
    }

    /// Draws along a path.
    pub(crate) fn stroke(&mut self, path: &Path, width: f32, colour: Colour, cap: LineCap) {
        let options = StrokeOptions::tolerance(TOLERANCE)
            .with_line_width(width)
            .with_line_cap(cap)
            .with_line_join(LineJoin::Round);
        let mut out = BuffersBuilder::new(&mut self.buffers, Tint(colour.linear()));
        let _ = StrokeTessellator::new().tessellate_path(path, &options, &mut out);
    }

    /// Draws the edge of an outline.
    pub(crate) fn edge(&mut self, outline: &[Vec2], width: f32, colour: Colour) {
        self.stroke(&polyline(outline, true), width, colour, LineCap::Round);
    }

    /// Draws an open run of lines with round ends.
    pub(crate) fn run(&mut self, points: &[Vec2], width: f32, colour: Colour) {
        self.stroke(&polyline(points, false), width, colour, LineCap::Round);
    }

    /// Draws a line with square-cut ends.
    pub(crate) fn line(&mut self, from: Vec2, to: Vec2, width: f32, colour: Colour) {
        self.stroke(&polyline(&[from, to], false), width, colour, LineCap::Butt);
    }

    /// Draws a line of dashes of this length with gaps as long.
    pub(crate) fn dashes(&mut self, from: Vec2, to: Vec2, dash: f32, width: f32, colour: Colour) {
        let length = from.distance(to);
        // An odd count, so that both ends carry a dash.
        let count = (((length / dash) as u32).max(1) | 1).min(2_001);
        let part = (to - from) / count as f32;
        for i in (0..count).step_by(2) {
            let start = from + part * i as f32;
            self.line(start, start + part, width, colour);
        }
    }

    /// A line as two bare triangles: cheap enough for thousands.
    pub(crate) fn quad(&mut self, from: Vec2, to: Vec2, width: f32, colour: Colour) {
        let side = (to - from).normalize_or_zero().perp() * 0.5 * width;
        let start = self.buffers.vertices.len() as u32;
        let colour = colour.linear();
        for p in [from - side, from + side, to + side, to - side] {
            self.buffers.vertices.push(Vertex { at: [p.x, p.y, 0.0], colour });
        }
        self.buffers.indices.extend([0, 1, 2, 0, 2, 3].map(|i| start + i));
    }

    /// Four corners as two bare triangles, for what is drawn anew with each picture.
    pub(crate) fn piece(&mut self, corners: [Vec2; 4], colour: Colour) {
        let start = self.buffers.vertices.len() as u32;
        let colour = colour.linear();
        for p in corners {
            self.buffers.vertices.push(Vertex { at: [p.x, p.y, 0.0], colour });
        }
        self.buffers.indices.extend([0, 1, 2, 0, 2, 3].map(|i| start + i));
    }

    /// Fills a circle.
    pub(crate) fn disc(&mut self, middle: Vec2, radius: f32, colour: Colour) {
        let options = FillOptions::tolerance(TOLERANCE);
        let mut out = BuffersBuilder::new(&mut self.buffers, Tint(colour.linear()));
        let _ = FillTessellator::new().tessellate_circle(pt(middle), radius, &options, &mut out);
    }

    /// Draws a circle's edge.
    pub(crate) fn ring(&mut self, middle: Vec2, radius: f32, width: f32, colour: Colour) {
        let options = StrokeOptions::tolerance(TOLERANCE).with_line_width(width);
        let mut out = BuffersBuilder::new(&mut self.buffers, Tint(colour.linear()));
        let _ = StrokeTessellator::new().tessellate_circle(pt(middle), radius, &options, &mut out);
    }

    /// Fills a rectangle with rounded corners, given by two opposite corners.
    pub(crate) fn slab(&mut self, a: Vec2, b: Vec2, radius: f32, colour: Colour) {
        self.area(&rounded(a, b, radius), colour);
    }

    /// A soft round shadow: dark in the middle, nothing at the edge.
    pub(crate) fn blur(&mut self, middle: Vec2, radii: Vec2, colour: Colour) {
        const SPOKES: u32 = 24;
        let start = self.buffers.vertices.len() as u32;
        let (full, none) = (colour.linear(), colour.faded(0.0).linear());
        let mut put = |at: Vec2, colour| {
            self.buffers.vertices.push(Vertex { at: [at.x, at.y, 0.0], colour });
        };
        put(middle, full);
        for i in 0..SPOKES {
            let a = i as f32 / SPOKES as f32 * core::f32::consts::TAU;
            put(middle + radii * Vec2::from_angle(a), none);
        }
        for i in 0..SPOKES {
            let (b, c) = (start + 1 + i, start + 1 + (i + 1) % SPOKES);
            self.buffers.indices.extend([start, b, c]);
        }
    }

    /// A rectangle with a soft edge outside it of this width.
    pub(crate) fn halo(&mut self, a: Vec2, b: Vec2, width: f32, colour: Colour) {
        let (lo, hi) = (a.min(b), a.max(b));
        let inner = rounded(lo, hi, width * 0.5);
        let outer = rounded(lo - width, hi + width, width * 1.5);
        let (full, none) = (colour.linear(), colour.faded(0.0).linear());
        self.area(&inner, colour);
        let first = self.buffers.vertices.len() as u32;
        for (i, o) in inner.iter().zip(&outer) {
            for (p, colour) in [(i, full), (o, none)] {
                self.buffers.vertices.push(Vertex { at: [p.x, p.y, 0.0], colour });
            }
        }
        let n = inner.len() as u32;
        for i in 0..n {
            let (a, b) = (first + 2 * i, first + 2 * ((i + 1) % n));
            self.buffers.indices.extend([a, a + 1, b, b, a + 1, b + 1]);
        }
    }

    /// Nothing was drawn.
    pub(crate) fn is_empty(&self) -> bool {
        self.buffers.indices.is_empty()
    }

    /// The mesh of all that was drawn.
    pub(crate) fn into_mesh(mut self) -> Mesh {
        if self.is_empty() {
            // The renderer wants at least one triangle; this one covers nothing.
            let nothing = Vertex { at: [0.0; 3], colour: [0.0; 4] };
            self.buffers.vertices = vec![nothing; 3];
            self.buffers.indices = vec![0, 1, 2];
        }
        let (at, colours): (Vec<_>, Vec<_>) =
            self.buffers.vertices.iter().map(|v| (v.at, v.colour)).unzip();
        Mesh::new(PrimitiveTopology::TriangleList, RenderAssetUsages::default())
            .with_inserted_attribute(Mesh::ATTRIBUTE_POSITION, at)
            .with_inserted_attribute(Mesh::ATTRIBUTE_COLOR, colours)
            .with_inserted_indices(Indices::U32(self.buffers.indices))
    }
}

/// The outline of a rectangle with rounded corners, given by two opposite corners.
pub(crate) fn rounded(a: Vec2, b: Vec2, radius: f32) -> Vec<Vec2> {
    const STEPS: u32 = 6;
    let (lo, hi) = (a.min(b), a.max(b));
    let size = hi - lo;
    let r = radius.min(0.5 * size.min_element()).max(0.0);
    let corners = [
        (Vec2::new(hi.x - r, hi.y - r), 0.0),
        (Vec2::new(lo.x + r, hi.y - r), 0.25),
        (Vec2::new(lo.x + r, lo.y + r), 0.5),
        (Vec2::new(hi.x - r, lo.y + r), 0.75),
    ];
    corners
        .into_iter()
        .flat_map(|(middle, turn)| {
            (0..=STEPS).map(move |i| {
                let a = turn + 0.25 * i as f32 / STEPS as f32;
                middle + r * Vec2::from_angle(a * core::f32::consts::TAU)
            })
        })
        .collect()
}

/// The corners of a turned rectangle.
pub(crate) fn turned(middle: Vec2, heading: f32, size: Vec2) -> [Vec2; 4] {
    let along = Vec2::from_angle(heading);
    let (x, y) = (along * 0.5 * size.x, along.perp() * 0.5 * size.y);
    [middle - x - y, middle + x - y, middle + x + y, middle - x + y]
}
