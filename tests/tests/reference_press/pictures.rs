//! Grey pictures, and how far two of them differ.

/// A grey picture: one byte a pixel, row by row from the top, 0 for black.
pub struct Grey {
    pub width_px: usize,
    pub height_px: usize,
    pub levels: Vec<u8>,
}

impl Grey {
    /// The PNG's brightness; what is clear counts as white. Of colours the plain mean is taken.
    pub fn read(png: &[u8]) -> Grey {
        Grey::of_values(png, |value| value)
    }

    /// The brightness after each stored value has been replaced by another.
    pub fn of_values(png: &[u8], replaced: impl Fn(u8) -> u8) -> Grey {
        let mut decoder = png::Decoder::new(std::io::Cursor::new(png));
        decoder.set_transformations(png::Transformations::EXPAND | png::Transformations::STRIP_16);
        let mut reader = decoder.read_info().expect("a PNG");
        let mut bytes = vec![0; reader.output_buffer_size().expect("a picture that fits in memory")];
        let info = reader.next_frame(&mut bytes).expect("the PNG's pixels");
        let channels = info.color_type.samples();
        let level = |pixel: &[u8]| {
            let colours = if channels > 2 { 3 } else { 1 };
            let mean = pixel[..colours].iter().map(|&value| u32::from(replaced(value))).sum::<u32>()
                / colours as u32;
            let alpha = if channels.is_multiple_of(2) { u32::from(pixel[channels - 1]) } else { 255 };
            ((mean * alpha + 255 * (255 - alpha)) / 255) as u8
        };
        let levels = bytes.chunks_exact(channels).map(level).collect();
        Grey { width_px: info.width as usize, height_px: info.height as usize, levels }
    }

    /// Black where it is darker than this level, white elsewhere.
    pub fn parted(&self, level: u8) -> Grey {
        let levels = self.levels.iter().map(|&own| if own < level { 0 } else { 255 }).collect();
        Grey { levels, ..*self }
    }

    /// The part of it that begins in this column and row.
    pub fn part(&self, x: usize, y: usize, width_px: usize, height_px: usize) -> Grey {
        assert!(x + width_px <= self.width_px && y + height_px <= self.height_px, "the part is within");
        let rows = (y..y + height_px).map(|row| &self.levels[row * self.width_px + x..][..width_px]);
        Grey { width_px, height_px, levels: rows.flatten().copied().collect() }
    }

    /// It turned by a quarter against the clock.
    pub fn turned_back(&self) -> Grey {
        let (width_px, height_px) = (self.height_px, self.width_px);
        let at = |x: usize, y: usize| self.levels[x * self.width_px + (self.width_px - 1 - y)];
        let levels = (0..height_px).flat_map(|y| (0..width_px).map(move |x| at(x, y))).collect();
        Grey { width_px, height_px, levels }
    }

    /// Where the middle of all that is dark lies, in pixels, and how dark it is in all, in black pixels.
    pub fn middle(&self) -> (f64, f64, f64) {
        let (mut x, mut y, mut sum) = (0.0, 0.0, 0.0);
        for (i, &level) in self.levels.iter().enumerate() {
            let dark = f64::from(255 - level) / 255.0;
            x += dark * ((i % self.width_px) as f64 + 0.5);
            y += dark * ((i / self.width_px) as f64 + 0.5);
            sum += dark;
        }
        (x / sum, y / sum, sum)
    }

    /// How many pixels are darker than half and have no such pixel of the other within so many pixels.
    pub fn dark_without_partner(&self, other: &Grey, reach: i64) -> usize {
        assert_eq!((self.width_px, self.height_px), (other.width_px, other.height_px));
        let is_dark = |x: i64, y: i64| {
            let is_in = x >= 0 && y >= 0 && x < self.width_px as i64 && y < self.height_px as i64;
            is_in && other.levels[y as usize * self.width_px + x as usize] < 128
        };
        let has_partner = |x: i64, y: i64| {
            (-reach..=reach).any(|dy| {
                (-reach..=reach).any(|dx| dx * dx + dy * dy <= reach * reach && is_dark(x + dx, y + dy))
            })
        };
        let dark = self.levels.iter().enumerate().filter(|&(_, &level)| level < 128);
        dark.filter(|&(i, _)| !has_partner((i % self.width_px) as i64, (i / self.width_px) as i64)).count()
    }
}

/// How far two pictures of one size differ: the mean over all pixels, and the most that the mean over a square of
/// 5 x 5 pixels does, in levels of 255.
pub fn difference(a: &Grey, b: &Grey) -> (f64, f64) {
    assert_eq!((a.width_px, a.height_px), (b.width_px, b.height_px));
    let apart = |i: usize| i32::from(a.levels[i]) - i32::from(b.levels[i]);
    let mean = (0..a.levels.len()).map(|i| f64::from(apart(i).abs())).sum::<f64>() / a.levels.len() as f64;
    let square = |x: usize, y: usize| {
        let sum: i32 = (y..y + 5)
            .flat_map(|y| (x..x + 5).map(move |x| (x, y)))
            .map(|(x, y)| apart(y * a.width_px + x))
            .sum();
        f64::from(sum.abs()) / 25.0
    };
    let squares =
        (0..a.height_px - 4).step_by(2).flat_map(|y| (0..a.width_px - 4).step_by(2).map(move |x| (x, y)));
    (mean, squares.map(|(x, y)| square(x, y)).fold(0.0, f64::max))
}
