//! The drawing of a cone: its section as it sits in the lathe.

use crate::record::drawing::{Drawing, Side, View};
use crate::shape::{Point, Turned};
use crate::units::{Angle, Length};

use super::read::{BoltKind, Recess, Spec};

/// The section with its dimensions; z runs to the right, from the foot to the nose.
pub fn drawing(s: &Spec, turned: &Turned) -> Drawing {
    let (foot, top) = (s.foot_height(), s.foot_height() + s.height);
    let wide = s.foot_width();
    // Three of the four figures of a cone make it; the fourth stands in brackets.
    let tip_follows = s.written.tip.is_none();
    let bracket = |view: View, follows: bool| if follows { view.auxiliary() } else { view };
    let mut view = View::section("Section on the axis", turned).diameter("base_diameter", foot, s.base, Side::Left);
    view = bracket(view.diameter("tip_diameter", top, s.tip, Side::Right), tip_follows);
    view = bracket(view.axial("height", (foot, s.base), (top, s.tip), Side::Above), !tip_follows);
    if foot > Length::ZERO {
        view = view.axial("foot", (Length::ZERO, wide), (foot, wide), Side::Below).axial(
            "overall_height",
            (Length::ZERO, wide),
            (top, s.tip),
            Side::Below,
        );
        view = bracket(view, tip_follows);
    }
    if wide > s.base {
        view = view.diameter("foot_diameter", Length::ZERO, wide, Side::Left);
    }
    // The half-angle stands at the base circle, or before the nose where a wide foot is in the way.
    let base = Point::new(foot, s.base / 2.0);
    view = if wide > s.base {
        view.corner("half_angle", Point::new(top, s.tip / 2.0), -s.half_angle, Angle::ZERO)
    } else {
        view.corner("half_angle", base, Angle::degrees(180.0) - s.half_angle, Angle::degrees(180.0))
    };
    if s.nose_radius() > Length::ZERO {
        let tangent = s.nose_radius() * (Angle::degrees(45.0) - s.half_angle / 2.0).tan();
        let centre = Point::new(top - s.nose_radius(), s.tip / 2.0 - tangent);
        view = view.radius("tip_radius", centre, s.nose_radius(), Angle::degrees(45.0));
    }
    let middle = foot + s.height / 2.0;
    let there = crate::formulas::seating::diameter_at(s.base, s.half_angle, s.height / 2.0) / 2.0;
    view = view.taper("taper", Point::new(middle, -there), false).auxiliary().texture(
        Point::new(middle, there),
        Angle::degrees(90.0) - s.half_angle,
        "Ra 1.6",
    );
    view = bolt(view, s, top);
    Drawing { views: vec![view] }
}

fn bolt(view: View, s: &Spec, top: Length) -> View {
    let Some(bolt) = &s.bolt else { return view };
    match bolt.kind {
        BoltKind::Through { hole, recess } => {
            let view = view.diameter("bolt_hole", Length::ZERO, hole, Side::Left);
            match recess {
                Recess::Counterbore { diameter, depth } => view
                    .diameter("counterbore_diameter", top, diameter, Side::Right)
                    .axial("counterbore_depth", (top - depth, diameter), (top, diameter), Side::Below),
                Recess::Countersink { diameter, .. } => {
                    view.diameter("countersink_diameter", top, diameter, Side::Right).also(" × ", "countersink_angle")
                }
                Recess::None => view,
            }
        }
        BoltKind::FromBelow { tap_drill, depth } => {
            // Thread and hole, each with its depth (ISO 6410-1:1993, ISO 15786:2008).
            view.thread_inside(Length::ZERO, depth, bolt.size.major, false)
                .pointed("thread", Point::new(Length::ZERO, tap_drill / -2.0))
                .also(" × ", "thread_depth")
                .also("\nØ", "tap_drill")
                .also(" × ", "drill_depth")
        }
    }
}
