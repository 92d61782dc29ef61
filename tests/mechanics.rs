//! Press fits, contact, heat, chains and shims against books, standards and independent calculations.

use setdown::mechanics::shims::*;
use setdown::mechanics::uncertainty::*;
use setdown::mechanics::*;
use setdown::units::*;

fn mm(value: f64) -> Length {
    Length::mm(value)
}

/// Equal to the digits given: |a - b| <= tolerance, both values printed when not.
#[track_caller]
fn near(what: &str, got: f64, expected: f64, tolerance: f64) {
    assert!((got - expected).abs() <= tolerance, "{what}: got {got}, expected {expected} +- {tolerance}");
}

mod shim {
    use super::*;

    fn question(source: ShimSource, sides: Sides, offset: f64) -> ShimQuestion {
        ShimQuestion { source, target: FloatTarget { min: mm(0.05), max: mm(0.15) }, sides, offset: mm(offset) }
    }

    /// Stack 0.52 + 0.31 + 0.21 + 0.11, float 1.28 without and 0.12 with it (trade example, derived and
    /// checked by an independent script): effective stack 1.16, film 3.3 um a joint, one shim of 1.18.
    #[test]
    fn one_shim_for_a_stack() {
        let widths = [0.52, 0.31, 0.21, 0.11].map(mm);
        let effective = effective_stack(mm(1.28), mm(0.12)).unwrap();
        near("effective stack", effective.as_mm(), 1.16, 1e-12);
        near("film", film_per_joint(effective, &widths).unwrap().as_mm(), 0.00333333333, 1e-9);
        let gap = ShimSource::Gap(Measured::with_expanded(mm(1.28), mm(0.01)));
        let answer = shim_width(&question(gap, Sides::One, 0.0)).unwrap();
        near("total", answer.total.as_mm(), 1.18, 1e-12);
        near("U", answer.uncertainty.as_mm(), 0.01, 1e-9);
        near("lower", answer.lower.as_mm(), 1.14, 1e-9);
        near("upper", answer.upper.as_mm(), 1.22, 1e-9);
        near("float min", answer.float.min.as_mm(), 0.05, 1e-9);
        near("float max", answer.float.max.as_mm(), 0.15, 1e-9);
        assert!(answer.warnings.is_empty());
    }

    /// The same stack added up is 10 um thinner than what it took up: the answer carries the warning.
    #[test]
    fn adding_up_a_stack_warns() {
        let shims = [0.52, 0.31, 0.21, 0.11].map(|w| Measured::by(mm(w), Instrument::Micrometer)).to_vec();
        let source = ShimSource::Replaces { shims, present_float: Measured::exact(mm(0.12)) };
        let answer = shim_width(&question(source, Sides::Two, 0.1)).unwrap();
        near("total", answer.total.as_mm(), 1.17, 1e-12);
        near("U", answer.uncertainty.as_mm(), 0.01, 1e-9);
        near("left", answer.sizes[0].width.as_mm(), 0.685, 1e-12);
        near("right", answer.sizes[1].width.as_mm(), 0.485, 1e-12);
        near("tolerance", (answer.upper - answer.lower).as_mm(), 0.04, 1e-9);
        assert_eq!(answer.warnings, [ShimWarning::StackOfLooseShims]);
    }

    #[test]
    fn a_poor_measurement_leaves_no_tolerance() {
        let gap = ShimSource::Gap(Measured::by(mm(1.28), Instrument::Tape));
        let answer = shim_width(&question(gap, Sides::One, 0.0)).unwrap();
        assert_eq!(answer.lower, answer.upper);
        assert_eq!(answer.warnings, [ShimWarning::UncertaintyFillsTheFloat]);
        assert!(answer.float.min < mm(0.05) && answer.float.max > mm(0.15));
    }

    #[test]
    fn nonsense_is_refused_in_words() {
        let gap = |g| ShimSource::Gap(Measured::exact(mm(g)));
        let text = |q: &ShimQuestion| shim_width(q).unwrap_err().to_string();
        assert_eq!(
            text(&question(gap(0.08), Sides::One, 0.0)),
            "the float is already smaller than wanted: there is no room for a shim"
        );
        assert_eq!(text(&question(gap(1.0), Sides::One, 0.1)), "a centring offset needs a shim on both sides");
        assert_eq!(text(&question(gap(1.0), Sides::Two, 0.6)), "the centring offset leaves no shim on one side");
        assert_eq!(text(&question(gap(f64::NAN), Sides::One, 0.0)), "the gap is not a number");
        let none = ShimSource::Replaces { shims: vec![], present_float: Measured::exact(mm(0.1)) };
        assert_eq!(text(&question(none, Sides::One, 0.0)), "no shims to replace given");
        assert!(effective_stack(mm(0.1), mm(0.2)).is_err());
    }

    /// Window 0.05 to 0.15, gaps over 0.40, shim tolerance 0.010, U 0.015: step 0.05, 8 sizes (trade example; an
    /// independent simulation found that 7 are not enough).
    #[test]
    fn size_classes_of_a_batch() {
        let float = Range { min: mm(0.05), max: mm(0.15) };
        let gaps = Range { min: mm(1.0), max: mm(1.4) };
        let classes = size_classes(gaps, float, mm(0.010), mm(0.015)).unwrap();
        near("step", classes.largest_step.as_mm(), 0.05, 1e-12);
        assert_eq!(classes.sizes.len(), 8);
        // Every gap finds a size that leaves the float inside, with shim and reading at their worst.
        for i in 0..=4000 {
            let gap = 1.0 + 0.4 * f64::from(i) / 4000.0;
            let best = classes.sizes.iter().map(|s| (gap - s.as_mm() - 0.1).abs()).fold(f64::INFINITY, f64::min);
            assert!(best + 0.025 <= 0.05 + 1e-9, "gap {gap}: {best}");
        }
        assert!(size_classes(gaps, float, mm(0.03), mm(0.03)).is_err());
    }

    /// Binomial quantiles against scipy.stats.binom.isf(0.05/8, 20, 1/8) = 7 and isf(0.05/2, 10, 1/2) = 8.
    #[test]
    fn numbers_to_order() {
        assert_eq!(batch_order(8, 20, 1, Spread::Uniform, 0.95).unwrap(), vec![7; 8]);
        assert_eq!(batch_order(2, 10, 2, Spread::Uniform, 0.95).unwrap(), vec![16, 16]);
        assert_eq!(batch_order(1, 10, 1, Spread::Normal, 0.95).unwrap(), vec![10]);
        assert!(batch_order(0, 10, 1, Spread::Normal, 0.95).is_err());
    }

    #[test]
    fn nearest_set_equals_trying_every_set() {
        let at_hand: Vec<Length> = (0..11).map(|i| mm(0.1 + f64::from(i * i % 17) * 0.037)).collect();
        for step in 1..60 {
            let wanted = mm(f64::from(step) * 0.031);
            let found = nearest_combination(&at_hand, wanted, Length::ZERO, mm(0.003)).unwrap();
            let least = (1u32..1 << 11)
                .filter(|set| set.count_ones() <= 4)
                .map(|set| {
                    let sum: f64 = (0..11).filter(|i| set >> i & 1 == 1).map(|i| at_hand[i as usize].as_mm()).sum();
                    (sum + 0.003 * f64::from(set.count_ones() - 1) - wanted.as_mm()).abs()
                })
                .fold(f64::INFINITY, f64::min);
            near("smallest error", found.error.as_mm().abs(), least, 2e-9);
            let sum: f64 = found.pieces.iter().map(|&i| at_hand[i].as_mm()).sum();
            near("total", found.total.as_mm(), sum + 0.003 * (found.pieces.len() - 1) as f64, 1e-9);
        }
    }

    #[test]
    fn fewest_pieces_win_inside_the_tolerance() {
        let at_hand = [0.3, 0.5, 0.7, 1.19].map(mm);
        let close = nearest_combination(&at_hand, mm(1.2), mm(0.02), Length::ZERO).unwrap();
        assert_eq!((close.pieces, close.within_tolerance), (vec![3], true));
        let exact = nearest_combination(&at_hand, mm(1.2), mm(0.001), Length::ZERO).unwrap();
        assert_eq!(exact.pieces, vec![1, 2]);
        assert!(nearest_combination(&[], mm(1.0), mm(0.01), Length::ZERO).is_err());
        assert!(nearest_combination(&[mm(1.0); 301], mm(1.0), mm(0.01), Length::ZERO).is_err());
    }

    #[test]
    fn stock_to_grind() {
        let stock = [1.0, 1.2, 1.3, 1.5].map(mm);
        let choice = from_stock(&stock, mm(1.18), mm(0.01), mm(0.1)).unwrap().unwrap();
        near("stock", choice.stock.as_mm(), 1.3, 1e-12);
        near("grind off", choice.grind_off.as_mm(), 0.12, 1e-12);
        let fits = from_stock(&stock, mm(1.195), mm(0.01), mm(0.1)).unwrap().unwrap();
        assert_eq!((fits.stock, fits.grind_off), (mm(1.2), Length::ZERO));
        assert_eq!(from_stock(&stock, mm(1.6), mm(0.01), mm(0.1)).unwrap(), None);
    }
}

mod budgets {
    use super::*;

    /// End gauge, JCGM 100:2008 example H.1 (quoted from memory): u_c 32 nm, nu_eff 16, t99 2.92, U99 93 nm.
    #[test]
    fn end_gauge() {
        let nm = |v: f64| Length::um(v / 1000.0);
        let part = |u: f64, nu: f64| Contribution {
            sensitivity: 1.0,
            standard_uncertainty: nm(u),
            degrees_of_freedom: Some(nu),
        };
        let total = combine(&[part(25.0, 18.0), part(9.7, 25.6), part(2.9, 50.0), part(16.6, 2.0)]).unwrap();
        near("u_c in nm", total.standard.as_um() * 1000.0, 32.0, 0.5);
        near("degrees of freedom", total.degrees_of_freedom.unwrap().floor(), 16.0, 0.0);
        near("t99", coverage_factor(total.degrees_of_freedom, 0.99).unwrap(), 2.92, 0.005);
        near("U99 in nm", total.expanded(0.99).unwrap().as_um() * 1000.0, 93.0, 0.5);
    }

    /// Digital micrometer, published budget (GUM guide for micrometers): s 0.58 um of 3 readings, resolution 1 um,
    /// block U 0.5 um: u_c 0.00051 mm, U 0.0010 mm.
    #[test]
    fn micrometer_budget() {
        let known = |u| Contribution { sensitivity: 1.0, standard_uncertainty: u, degrees_of_freedom: None };
        let parts = [mm(0.00058) / 3.0_f64.sqrt(), from_resolution(mm(0.001)), mm(0.0005) / 2.0].map(known);
        let total = combine(&parts).unwrap();
        near("u_c", total.standard.as_mm(), 0.00051, 0.000005);
        near("u_c, independent script", total.standard.as_mm(), 0.00050790419, 1e-10);
        near("U", total.expanded(TWO_SIGMA).unwrap().as_mm(), 0.0010, 0.00005);
    }

    #[test]
    fn instruments_are_ordered_coarse_to_fine() {
        let widths: Vec<f64> = Instrument::ALL.iter().map(|i| i.expanded_uncertainty().value.as_mm()).collect();
        assert!(widths.windows(2).all(|pair| pair[0] > pair[1]), "{widths:?}");
    }
}
