//! A third whole job, invented: a generator skid on three cones of a flatbed, bolted, inch and millimetres mixed, with the bush,
//! the raceway and the shim of its arm. Figures by another route (`skid/work.py`) beside it; its parts must read in order.

use super::*;

#[test]
fn every_figure_by_the_second_route() {
    by_the_second_route("skid", 17);
}

/// What does not read in order is rightly so: a slot touches its cone in two points, which bed in by more than a tenth of a
/// millimetre under this load whatever its rim, and so by more than the other seats; the loads in the files are those at rest, and
/// braking puts more on a front seat.
#[test]
fn the_sound_job_reads_in_order() {
    let told = not_in_order("skid");
    // Braking puts 4987 N across the one round cup, 0.8 of its seat_load are 3914 N: cup and cone want side_factor = 1.03.
    assert_eq!(
        told,
        [
            "cup-b.toml bedding_in",
            "landing.toml settling_uneven",
            "landing.toml cup_seat_load",
            "landing.toml cup_side_factor"
        ],
        "{told:?}"
    );
}
