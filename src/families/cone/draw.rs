//! The drawing of a cone: its section as it sits in the lathe.

use crate::record::drawing::{Drawing, Side, View};
use crate::record::show;
use crate::shape::{Point, Turned};
use crate::units::{Angle, Length, LengthUnit};

use super::read::{BoltKind, Recess, Spec};
use super::sizes;

/// The section with its dimensions; z runs to the right, from the foot to the nose.
pub fn drawing(s: &Spec, turned: &Turned) -> Drawing {
    let (foot, top) = (s.foot_height(), s.foot_height() + s.height);
    let wide = s.foot_width();
    // Three of the four figures of a cone make it; the fourth stands in brackets.
    let tip_follows = s.written.tip.is_none();
    let bracket = |view: View, follows: bool| if follows { view.auxiliary() } else { view };
    let mut view =
        View::section("Section on the axis", turned).diameter(&sizes::BASE_DIAMETER, foot, s.base, Side::Left);
    view = bracket(view.diameter(&sizes::TIP_DIAMETER, top, s.tip, Side::Right), tip_follows);
    view = bracket(view.axial(&sizes::HEIGHT, (foot, s.base), (top, s.tip), Side::Above), !tip_follows);
    if foot > Length::ZERO {
        view = view.axial(&sizes::FOOT, (Length::ZERO, wide), (foot, wide), Side::Below).axial(
            &sizes::OVERALL_HEIGHT,
            (Length::ZERO, wide),
            (top, s.tip),
            Side::Below,
        );
        view = bracket(view, tip_follows);
    }
    if wide > s.base {
        view = view.diameter(&sizes::FOOT_DIAMETER, Length::ZERO, wide, Side::Left);
    }
    // The half-angle stands at the base circle, or before the nose where a wide foot is in the way.
    let base = Point::new(foot, s.base / 2.0);
    view = if wide > s.base {
        view.corner(&sizes::HALF_ANGLE, Point::new(top, s.tip / 2.0), -s.half_angle, Angle::ZERO)
    } else {
        view.corner(&sizes::HALF_ANGLE, base, Angle::degrees(180.0) - s.half_angle, Angle::degrees(180.0))
    };
    if s.nose_radius() > Length::ZERO {
        let tangent = s.nose_radius() * (Angle::degrees(45.0) - s.half_angle / 2.0).tan();
        let centre = Point::new(top - s.nose_radius(), s.tip / 2.0 - tangent);
        view = view.radius(&sizes::TIP_RADIUS, centre, s.nose_radius(), Angle::degrees(45.0));
    }
    let middle = foot + s.height / 2.0;
    let there = crate::formulas::seating::diameter_at(s.base, s.half_angle, s.height / 2.0) / 2.0;
    view = view.taper(&sizes::TAPER, Point::new(middle, -there), false).auxiliary().texture(
        Point::new(middle, there),
        Angle::degrees(90.0) - s.half_angle,
        &show::roughness(Length::um(1.6), s.common.header.unit),
    );
    view = bolt(view, s, top);
    Drawing { views: vec![view] }
}

fn bolt(view: View, s: &Spec, top: Length) -> View {
    let Some(bolt) = &s.bolt else { return view };
    match bolt.kind {
        BoltKind::Through { hole, recess } => {
            let view = view.diameter(&sizes::BOLT_HOLE, Length::ZERO, hole, Side::Left);
            match recess {
                Recess::Counterbore { diameter, depth } => view
                    .diameter(&sizes::COUNTERBORE_DIAMETER, top, diameter, Side::Right)
                    .axial(&sizes::COUNTERBORE_DEPTH, (top - depth, diameter), (top, diameter), Side::Below),
                Recess::Countersink { diameter, .. } => view
                    .diameter(&sizes::COUNTERSINK_DIAMETER, top, diameter, Side::Right)
                    .also(" × ", &sizes::COUNTERSINK_ANGLE),
                Recess::None => view,
            }
        }
        BoltKind::FromBelow { tap_drill, depth } => {
            // Thread and hole, each with its depth (ISO 6410-1:1993, ISO 15786:2008); behind an inch depth a cross reads as a pitch.
            let deep = if s.common.header.unit == LengthUnit::Inch { ", depth " } else { " × " };
            view.thread_inside(Length::ZERO, depth, bolt.size.major, false)
                .pointed(&sizes::THREAD, Point::new(Length::ZERO, tap_drill / -2.0))
                .also(deep, &sizes::THREAD_DEPTH)
                .also("\nØ", &sizes::TAP_DRILL)
                .also(deep, &sizes::DRILL_DEPTH)
        }
    }
}
