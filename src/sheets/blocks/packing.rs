//! Which pieces go on which sheet: squares, rods and cubes in bands that straight cuts free.
//!
//! In: how many pieces, and how many units the printable area measures. Out: the fewest sheets this module finds, each a
//! list of [`Band`]s from top to bottom; `tests/packing.rs` proves that no fewer serve. All pieces are whole units, so a
//! page is a matter of whole numbers. A tall band is ten units high and holds squares, then upright rods, then columns of
//! cubes; a low band is one unit high and holds level rods, then cubes.

/// How many pieces one learner needs.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Default)]
pub struct PieceCounts {
    /// 10 x 10 units: thousands and flats.
    pub squares: u32,
    /// 1 x 10 units.
    pub rods: u32,
    /// 1 x 1 unit.
    pub cubes: u32,
}

/// One strip from the left to the right edge of a sheet, and what is in it from left to right.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub struct Band {
    /// Ten units high rather than one.
    pub tall: bool,
    /// 10 x 10 units each; none in a low band.
    pub squares: u32,
    /// Upright in a tall band, level in a low one.
    pub rods: u32,
    /// In columns of up to ten in a tall band, in a row in a low one.
    pub cubes: u32,
}

impl Band {
    /// How many units high.
    pub const fn height(&self) -> u32 {
        if self.tall { 10 } else { 1 }
    }

    /// How many units wide what is in it reaches.
    pub const fn width(&self) -> u32 {
        if self.tall { 10 * self.squares + self.rods + self.cubes.div_ceil(10) } else { 10 * self.rods + self.cubes }
    }

    const fn new(tall: bool, squares: u32) -> Self {
        Self { tall, squares, rods: 0, cubes: 0 }
    }

    const fn is_empty(&self) -> bool {
        self.squares == 0 && self.rods == 0 && self.cubes == 0
    }
}

/// The room on a sheet in whole units.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub struct SheetRoom {
    /// Left to right.
    pub across: u32,
    /// Top to bottom, with room for no more than the smallest check lines taken off.
    pub down: u32,
    /// Top to bottom, with room for comfortable check lines taken off: rods then lie in rows of their own.
    pub easy: u32,
}

/// The fewest sheets that hold everything, each as bands from top to bottom; `None` when a square does not fit a sheet.
pub fn pack(need: PieceCounts, room: SheetRoom) -> Option<Vec<Vec<Band>>> {
    let across = room.across / 10;
    let most = across * (room.down / 10);
    if most == 0 {
        return None;
    }
    let least = need.squares.div_ceil(most).max(1);
    // Every sheet takes at least ten rods or a hundred cubes, so the search ends.
    (least..).find_map(|sheets| {
        let full_first = (0..sheets).map(|k| need.squares.saturating_sub(k * most).min(most)).collect::<Vec<_>>();
        let even =
            (0..sheets).map(|k| need.squares / sheets + u32::from(k < need.squares % sheets)).collect::<Vec<_>>();
        [(&full_first, true), (&full_first, false), (&even, false)]
            .into_iter()
            .find_map(|(squares, easy)| share(squares, need.rods, need.cubes, room, easy))
    })
}

/// Sheets with so many squares each that together hold the rods and cubes too, the last sheet filled first.
fn share(squares: &[u32], mut rods: u32, mut cubes: u32, room: SheetRoom, easy: bool) -> Option<Vec<Vec<Band>>> {
    let mut sheets = Vec::new();
    for &squares in squares.iter().rev() {
        let bands = if easy { rows(squares, rods, cubes, room) } else { tight(squares, rods, cubes, room) };
        // In the easy way rods and cubes go on one sheet, wherever they all fit; sheets before it hold squares alone.
        let bands = bands.or_else(|| rows(squares, 0, 0, SheetRoom { easy: room.down, ..room }))?;
        rods -= bands.iter().map(|band| band.rods).sum::<u32>();
        cubes -= bands.iter().map(|band| band.cubes).sum::<u32>();
        sheets.push(bands);
    }
    sheets.reverse();
    (rods == 0 && cubes == 0).then_some(sheets)
}

/// Tall bands of squares, then rows of rods and cubes: all of them, or `None`.
fn rows(squares: u32, mut rods: u32, cubes: u32, room: SheetRoom) -> Option<Vec<Band>> {
    let across = room.across / 10;
    let mut bands = talls(squares, across);
    while rods > 0 {
        let here = rods.min(across);
        bands.push(Band { rods: here, ..Band::new(false, 0) });
        rods -= here;
    }
    let mut left = cubes;
    if let Some(last) = bands.last_mut().filter(|band| !band.tall && room.across - band.width() >= cubes) {
        last.cubes = cubes;
        left = 0;
    }
    while left > 0 {
        let here = left.min(room.across);
        bands.push(Band { cubes: here, ..Band::new(false, 0) });
        left -= here;
    }
    (bands.iter().map(Band::height).sum::<u32>() <= room.easy).then_some(bands)
}

/// As many rods, then as many cubes as fit beside and below the squares.
fn tight(squares: u32, rods: u32, cubes: u32, room: SheetRoom) -> Option<Vec<Band>> {
    let across = room.across / 10;
    let talls = talls(squares, across);
    let below = room.down.checked_sub(10 * u32::try_from(talls.len()).ok()?)?;
    // Some of the room below may become tall bands of upright rods.
    (0..=below / 10)
        .map(|more| {
            let mut bands = talls.clone();
            bands.extend((0..more).map(|_| Band::new(true, 0)));
            bands.extend((0..below - 10 * more).map(|_| Band::new(false, 0)));
            fill(bands, rods, cubes, room.across)
        })
        .max_by_key(|bands| {
            let placed = |count: fn(&Band) -> u32| bands.iter().map(count).sum::<u32>();
            (placed(|b| b.rods), placed(|b| b.cubes), std::cmp::Reverse(placed(Band::height)))
        })
}

/// Puts rods, then cubes into the room that bands have left, and drops bands that stay empty.
fn fill(mut bands: Vec<Band>, mut rods: u32, mut cubes: u32, across: u32) -> Vec<Band> {
    for band in &mut bands {
        let free = across - band.width();
        band.rods = rods.min(if band.tall { free } else { free / 10 });
        rods -= band.rods;
    }
    // First into bands that are there anyway, then into new ones.
    for begun in [true, false] {
        for band in bands.iter_mut().filter(|band| band.is_empty() != begun) {
            if band.cubes == 0 {
                let free = across - band.width();
                band.cubes = cubes.min(if band.tall { 10 * free } else { free });
                cubes -= band.cubes;
            }
        }
    }
    bands.retain(|band| !band.is_empty());
    bands
}

/// Tall bands for the squares, the first ones full.
fn talls(squares: u32, across: u32) -> Vec<Band> {
    let bands = squares.div_ceil(across.max(1));
    (0..bands).map(|k| Band::new(true, (squares - k * across).min(across))).collect()
}
