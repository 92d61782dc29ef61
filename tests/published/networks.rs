//! Plane distance networks with their adjusted coordinates as printed, all in metres; standard deviations of the
//! coordinates in centimetres, from the residuals.
//!
//! Collected in: F. Krumm, Geodetic Network Adjustment Examples, Geodätisches Institut, Universität Stuttgart,
//! Rev. 3.5, 20 January 2020 (https://www.gis.uni-stuttgart.de/lehre/campus-docs/adjustment_examples.pdf). Figures
//! read in the machine-readable copies that come with GNU Gama 2.24 (tests/krumm/input/2D: .dat the readings, .adj
//! the adjusted coordinates "as published by Friedhelm Krumm"); each network's own textbook stands beside it.

/// A network; the first `fixed` points are held where they are.
pub struct Published {
    pub source: &'static str,
    pub fixed: usize,
    /// Readings beyond what is needed.
    pub redundancy: usize,
    /// Held points, and approximate places of the others.
    pub points: &'static [(&'static str, f64, f64)],
    pub readings: &'static [(&'static str, &'static str, f64, f64)],
    /// Name, x, its standard deviation, y, its standard deviation.
    pub adjusted: &'static [(&'static str, f64, f64, f64, f64)],
}

/// The copy notes that these coordinates were computed from the readings and are not printed in Krumm; a second worked
/// copy of the same example (which names Krumm, pages 48 to 50) gives the same coordinates and deviations.
pub const BENNING_8_2: Published = Published {
    source: "W. Benning, Statistik in Geodäsie, Geoinformation und Bauwesen, Wichmann 2011, example 8-2, page 256",
    fixed: 2,
    redundancy: 1,
    points: &[("1", 0.0, 1000.0), ("2", 1000.0, 1000.0), ("3", 0.0, 0.0), ("4", 1000.0, 0.0)],
    readings: &[
        ("1", "3", 1000.02, 0.01),
        ("1", "4", 1414.20, 0.01),
        ("2", "3", 1414.24, 0.01),
        ("2", "4", 999.98, 0.01),
        ("3", "4", 1000.00, 0.01),
    ],
    adjusted: &[("3", -0.0096, 0.901, -0.0226, 0.637), ("4", 999.9930, 0.901, 0.0174, 0.637)],
};

/// Adjusted minus measured of the network above in centimetres, and the standard deviation of a reading in
/// millimetres: Krumm, pages 48 to 50, there with the other sign; read in that second worked copy.
pub const BENNING_8_2_RESIDUALS: ([f64; 5], f64) = ([0.260, -0.368, -0.368, 0.260, 0.260], 6.882);

pub const BENNING_8_8: Published = Published {
    source: "W. Benning, Statistik in Geodäsie, Geoinformation und Bauwesen, Wichmann 2011, example 8-8, pages 285-291",
    fixed: 5,
    redundancy: 3,
    points: &[
        ("1", 3000.0, 2000.0),
        ("2", 1000.0, 2000.0),
        ("3", 3000.0, 2100.0),
        ("4", 1000.0, 2100.0),
        ("5", 2000.0, 1000.0),
        ("6", 2000.0, 2000.0),
    ],
    readings: &[
        ("6", "1", 1000.00, 0.02),
        ("6", "2", 1000.00, 0.02),
        ("6", "3", 1005.00, 0.02),
        ("6", "4", 1005.00, 0.02),
        ("6", "5", 1000.00, 0.02),
    ],
    adjusted: &[("6", 2000.0000, 0.504, 1999.9976, 0.996)],
};

pub const GHILANI_14_5: Published = Published {
    source: "C. D. Ghilani, Adjustment Computations, 5th edition, Wiley 2010, example 14.5, page 251",
    fixed: 2,
    redundancy: 1,
    points: &[
        ("Badger", 2410000.000, 390000.000),
        ("Bucky", 2411820.000, 386881.222),
        ("Wisconsin", 2415776.819, 391043.461),
        ("Campus", 2416892.670, 387603.450),
    ],
    readings: &[
        ("Badger", "Wisconsin", 5870.302, 0.01),
        ("Badger", "Campus", 7297.588, 0.01),
        ("Wisconsin", "Campus", 3616.434, 0.01),
        ("Wisconsin", "Bucky", 5742.878, 0.01),
        ("Campus", "Bucky", 5123.760, 0.01),
    ],
    adjusted: &[
        ("Wisconsin", 2415776.9044, 14.879, 391043.2945, 22.061),
        ("Campus", 2416892.6955, 10.378, 387603.2551, 27.054),
    ],
};

pub const STRANG_BORRE_HELD: Published = Published {
    source: "G. Strang and K. Borre, Linear Algebra, Geodesy, and GPS, 1997, example 10.1, page 345",
    fixed: 3,
    redundancy: 1,
    points: &[("1", 170.71, 270.71), ("2", 100.0, 100.0), ("3", 241.42, 100.0), ("P", 170.71, 170.71)],
    readings: &[("1", "P", 100.01, 0.01), ("2", "P", 100.02, 0.01), ("3", "P", 100.03, 0.01)],
    adjusted: &[("P", 170.7029, 3.303, 170.7234, 2.335)],
};

pub const STRANG_BORRE_FREE: Published = Published {
    source: "G. Strang and K. Borre, Linear Algebra, Geodesy, and GPS, 1997, example 12.4, page 411",
    fixed: 0,
    redundancy: 1,
    points: &[("P", 170.71, 170.71), ("1", 170.71, 270.71), ("2", 100.0, 100.0), ("3", 241.42, 100.0)],
    readings: &[
        ("1", "P", 100.01, 0.01),
        ("2", "P", 100.02, 0.01),
        ("3", "P", 100.03, 0.01),
        ("1", "2", 184.785, 0.01),
        ("2", "3", 141.44, 0.01),
        ("1", "3", 184.805, 0.01),
    ],
    adjusted: &[
        ("P", 170.7123, 1.079, 170.7185, 0.682),
        ("1", 170.7032, 0.810, 270.7213, 0.551),
        ("2", 99.9912, 0.641, 99.9971, 0.705),
        ("3", 241.4333, 0.640, 99.9830, 0.705),
    ],
};

pub const WEISS: Published = Published {
    source: "G. Weiss and others, Detection of erroneous values in the measurement of local geodetic networks, \
             Acta Montanistica Slovaca 15 (2010), pages 62-70",
    fixed: 4,
    redundancy: 14,
    points: &[
        ("1", 4506.299, 9001.123),
        ("2", 2798.622, 9502.490),
        ("3", 3803.973, 9894.233),
        ("8", 4904.569, 9413.376),
        ("4", 3299.980, 9100.838),
        ("5", 3697.824, 9400.545),
        ("6", 3080.370, 9775.900),
        ("7", 4393.265, 9842.503),
        ("9", 4251.061, 9546.226),
    ],
    // the standard deviations are weights only: what a reading is worth comes out of the adjustment
    readings: &[
        ("4", "6", 709.927, 1.303_840_481),
        ("2", "6", 392.550, 0.774_596_669),
        ("2", "4", 642.409, 1.140_175_425),
        ("3", "4", 939.941, 1.095_445_115),
        ("3", "9", 566.555, 0.894_427_191),
        ("4", "9", 1050.204, 1.048_808_848),
        ("1", "4", 1210.478, 0.894_427_191),
        ("1", "5", 901.755, 0.894_427_191),
        ("5", "8", 1206.806, 1.0),
        ("4", "8", 1634.747, 1.140_175_425),
        ("4", "5", 498.107, 1.264_911_064),
        ("2", "5", 904.962, 1.183_215_957),
        ("2", "7", 1630.454, 1.048_808_848),
        ("1", "7", 849.005, 0.894_427_191),
        ("1", "9", 601.906, 1.095_445_115),
        ("8", "9", 666.874, 1.140_175_425),
        ("7", "8", 667.595, 0.774_596_669),
        ("5", "7", 823.990, 1.264_911_064),
        ("5", "6", 722.631, 1.140_175_425),
        ("6", "9", 1193.036, 0.836_660_027),
        ("5", "9", 572.094, 0.836_660_027),
        ("3", "5", 504.968, 1.303_840_481),
        ("3", "7", 591.506, 1.264_911_064),
        ("7", "9", 328.667, 0.948_683_298),
    ],
    adjusted: &[
        ("4", 3299.9644, 0.752, 9100.8289, 1.121),
        ("5", 3697.8223, 0.670, 9400.5394, 1.207),
        ("6", 3080.3184, 0.924, 9775.8943, 1.193),
        ("7", 4393.2160, 0.817, 9842.5618, 0.879),
        ("9", 4251.0495, 0.728, 9546.2298, 1.016),
    ],
};

/// The reading 1059-75 is the one that belongs to the printed results; the book's list of readings has
/// [`MISPRINT`] instead, five centimetres more (note in the machine-readable copy).
pub const HOEPKE_FREE: Published = Published {
    source: "W. Höpke, Fehlerlehre und Ausgleichungsrechnung, de Gruyter 1980, example 35.5, pages 120-123",
    fixed: 0,
    redundancy: 14,
    points: &[
        ("20", 3579041.416, 5707194.412),
        ("75", 3575403.277, 5707682.612),
        ("86", 3575322.061, 5708700.952),
        ("87", 3576581.778, 5709938.106),
        ("1006", 3578284.289, 5708758.641),
        ("1011", 3577052.332, 5708103.204),
        ("1059", 3576852.894, 5706633.642),
        ("1087", 3576213.699, 5709199.889),
    ],
    readings: &[
        ("86", "1006", 2962.832, 0.001),
        ("86", "87", 1765.657, 0.001),
        ("86", "1087", 1021.768, 0.001),
        ("86", "75", 1021.536, 0.001),
        ("86", "1011", 1830.646, 0.001),
        ("86", "20", 4012.921, 0.001),
        ("86", "1059", 2572.516, 0.001),
        ("1087", "87", 824.863, 0.001),
        ("1087", "20", 3466.722, 0.001),
        ("1087", "1059", 2644.789, 0.001),
        ("1087", "75", 1720.130, 0.001),
        ("1087", "1006", 2117.134, 0.001),
        ("1087", "1011", 1380.633, 0.001),
        ("1006", "75", 3075.373, 0.001),
        ("1006", "20", 1737.824, 0.001),
        ("1006", "1059", 2562.134, 0.001),
        ("1006", "1011", 1395.459, 0.001),
        ("1006", "87", 2071.154, 0.001),
        ("1011", "87", 1894.263, 0.001),
        ("1011", "75", 1701.824, 0.001),
        ("1011", "1059", 1483.088, 0.001),
        ("1011", "20", 2186.853, 0.001),
        ("1059", "20", 2259.167, 0.001),
        ("1059", "75", 1789.449, 0.001),
        ("1059", "87", 3315.630, 0.001),
        ("20", "87", 3684.782, 0.001),
        ("20", "75", 3670.735, 0.001),
    ],
    adjusted: &[
        ("20", 3579041.4042, 0.209, 5707194.4039, 0.265),
        ("75", 3575403.2853, 0.232, 5707682.6565, 0.265),
        ("86", 3575322.0203, 0.211, 5708700.9554, 0.240),
        ("87", 3576581.7857, 0.279, 5709938.0995, 0.226),
        ("1006", 3578284.2920, 0.203, 5708758.6275, 0.268),
        ("1011", 3577052.3287, 0.240, 5708103.2070, 0.273),
        ("1059", 3576852.9606, 0.247, 5706633.5764, 0.212),
        ("1087", 3576213.6691, 0.241, 5709199.9319, 0.227),
    ],
};

/// From, to, as listed, as used for the results.
pub const MISPRINT: (&str, &str, f64, f64) = ("1059", "75", 1789.499, 1789.449);
