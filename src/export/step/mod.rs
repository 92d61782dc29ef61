//! STEP (AP214, ISO 10303-21): the exact solid with real planes, cylinders, cones, spheres and tori.
//!
//! Faces share their edges and edges their corners, so that a reader gets one closed solid. Millimetres, the
//! product's name, no clock. The edge curve of a cross hole is the one thing without an elementary form: it is a
//! cubic spline through 128 exact points with exact tangents, within 3e-8 of the hole's diameter.

mod brep;
mod flat;
mod turned;
mod writer;

use crate::shape::Body;
use writer::Writer;

/// Bytes of a STEP file with one solid.
pub fn step(name: &str, body: &Body) -> Vec<u8> {
    let mut w = Writer::default();
    let faces = match body {
        Body::Turned(t) => turned::faces(&mut w, t),
        Body::Flat(f) => flat::faces(&mut w, f),
    };
    let shell = w.add(format_args!("CLOSED_SHELL('',({}))", writer::list(&faces)));
    let name = writer::text(name);
    let solid = w.add(format_args!("MANIFOLD_SOLID_BREP({name},#{shell})"));
    product(&mut w, &name, solid);
    w.finish(&name)
}

/// The records that make a solid a product with a unit.
fn product(w: &mut Writer, name: &str, solid: u32) {
    let length = w.add(format_args!("(LENGTH_UNIT()NAMED_UNIT(*)SI_UNIT(.MILLI.,.METRE.))"));
    let angle = w.add(format_args!("(NAMED_UNIT(*)PLANE_ANGLE_UNIT()SI_UNIT($,.RADIAN.))"));
    let solid_angle = w.add(format_args!("(NAMED_UNIT(*)SI_UNIT($,.STERADIAN.)SOLID_ANGLE_UNIT())"));
    let closeness = w.add(format_args!(
        "UNCERTAINTY_MEASURE_WITH_UNIT(LENGTH_MEASURE(1.E-06),#{length},'distance_accuracy_value','')"
    ));
    let context = w.add(format_args!(
        "(GEOMETRIC_REPRESENTATION_CONTEXT(3)GLOBAL_UNCERTAINTY_ASSIGNED_CONTEXT((#{closeness}))\
         GLOBAL_UNIT_ASSIGNED_CONTEXT((#{length},#{angle},#{solid_angle}))REPRESENTATION_CONTEXT('',''))"
    ));
    let axes = w.axes([0.0; 3], [0.0, 0.0, 1.0], [1.0, 0.0, 0.0]);
    let shape = w.add(format_args!("ADVANCED_BREP_SHAPE_REPRESENTATION({name},(#{axes},#{solid}),#{context})"));
    let application = w.add(format_args!("APPLICATION_CONTEXT('automotive_design')"));
    w.add(format_args!(
        "APPLICATION_PROTOCOL_DEFINITION('international standard','automotive_design',2000,#{application})"
    ));
    let product_context = w.add(format_args!("PRODUCT_CONTEXT('',#{application},'mechanical')"));
    let product = w.add(format_args!("PRODUCT({name},{name},'',(#{product_context}))"));
    w.add(format_args!("PRODUCT_RELATED_PRODUCT_CATEGORY('part',$,(#{product}))"));
    let formation = w.add(format_args!("PRODUCT_DEFINITION_FORMATION('','',#{product})"));
    let stage = w.add(format_args!("PRODUCT_DEFINITION_CONTEXT('part definition',#{application},'design')"));
    let definition = w.add(format_args!("PRODUCT_DEFINITION('design','',#{formation},#{stage})"));
    let property = w.add(format_args!("PRODUCT_DEFINITION_SHAPE('','',#{definition})"));
    w.add(format_args!("SHAPE_DEFINITION_REPRESENTATION(#{property},#{shape})"));
}
