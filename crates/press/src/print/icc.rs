//! The colour profile that the print names: sRGB, written here from its published numbers.
//!
//! Sources: IEC 61966-2-1 for the transfer curve; the colorants adapted to the profile's white, D50, as the International
//! Color Consortium publishes them for sRGB (from memory); ICC.1:2010 (profile version 4.3) for the layout of the file.

/// Numbers of a profile are whole multiples of 1/65536: s15Fixed16Number.
fn fixed(value: f64) -> [u8; 4] {
    ((value * 65536.0).round() as i32).to_be_bytes()
}

/// The white of every profile: D50.
const D50: [f64; 3] = [0.9642, 1.0, 0.8249];

/// Red, green and blue in that white.
const COLORANTS: [[f64; 3]; 3] = [
    [0.436_065_67, 0.222_488_4, 0.013_916_02],
    [0.385_147_1, 0.716_873_17, 0.097_076_42],
    [0.143_066_4, 0.060_607_9, 0.714_096_07],
];

/// From the white of sRGB, D65, to D50 by the linear Bradford transform.
const ADAPTATION: [f64; 9] =
    [1.047_882, 0.022_919, -0.050_201, 0.029_587, 0.990_479, -0.017_059, -0.009_232, 0.015_076, 0.751_678];

/// The sRGB curve as the standard's function of type 3: ((a x + b) ^ g) from d on, c x below.
const CURVE: [f64; 5] = [2.4, 1.0 / 1.055, 0.055 / 1.055, 1.0 / 12.92, 0.04045];

/// The profile's bytes.
pub(crate) fn srgb() -> Vec<u8> {
    let xyz = |values: [f64; 3]| element(b"XYZ ", values.into_iter().flat_map(fixed).collect());
    let mut curve = vec![0, 3, 0, 0];
    curve.extend(CURVE.into_iter().flat_map(fixed));
    let curve = element(b"para", curve);
    let elements: [(&[u8; 4], Vec<u8>); 10] = [
        (b"desc", text("sRGB")),
        (b"cprt", text("No copyright, use freely")),
        (b"wtpt", xyz(D50)),
        (b"chad", element(b"sf32", ADAPTATION.into_iter().flat_map(fixed).collect())),
        (b"rXYZ", xyz(COLORANTS[0])),
        (b"gXYZ", xyz(COLORANTS[1])),
        (b"bXYZ", xyz(COLORANTS[2])),
        (b"rTRC", curve.clone()),
        (b"gTRC", curve.clone()),
        (b"bTRC", curve),
    ];
    let table = 128 + 4 + 12 * elements.len();
    let (mut tags, mut data) = ((elements.len() as u32).to_be_bytes().to_vec(), Vec::new());
    for (signature, bytes) in elements {
        tags.extend_from_slice(signature);
        tags.extend(((table + data.len()) as u32).to_be_bytes());
        tags.extend((bytes.len() as u32).to_be_bytes());
        data.extend(bytes);
        data.resize(data.len().next_multiple_of(4), 0);
    }
    let mut profile = header((table + data.len()) as u32);
    profile.extend(tags);
    profile.extend(data);
    profile
}

/// The header of a display profile of version 4.3. Its date is that of the version.
fn header(size: u32) -> Vec<u8> {
    let mut header = vec![0; 128];
    let mut put = |at: usize, bytes: &[u8]| header[at..at + bytes.len()].copy_from_slice(bytes);
    put(0, &size.to_be_bytes());
    put(8, &[4, 0x30, 0, 0]);
    put(12, b"mntrRGB XYZ ");
    put(24, &[0x07, 0xDA, 0, 12, 0, 1]);
    put(36, b"acsp");
    put(68, &D50.map(fixed).concat());
    header
}

/// An element: its type, four empty bytes, its content.
fn element(kind: &[u8; 4], content: Vec<u8>) -> Vec<u8> {
    [&kind[..], &[0; 4], &content].concat()
}

/// A text in English: one record of UTF-16.
fn text(words: &str) -> Vec<u8> {
    let letters: Vec<u8> = words.encode_utf16().flat_map(u16::to_be_bytes).collect();
    let mut content = Vec::new();
    for number in [1, 12] {
        content.extend(u32::to_be_bytes(number));
    }
    content.extend_from_slice(b"enUS");
    content.extend((letters.len() as u32).to_be_bytes());
    content.extend(28_u32.to_be_bytes());
    content.extend(letters);
    element(b"mluc", content)
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn red_green_and_blue_make_white() {
        for (axis, white) in D50.into_iter().enumerate() {
            let sum: f64 = COLORANTS.iter().map(|colorant| colorant[axis]).sum();
            assert!((sum - white).abs() < 2e-4, "{axis}: {sum}");
        }
    }

    #[test]
    fn elements_lie_where_the_table_says() {
        let profile = srgb();
        let number = |at: usize| u32::from_be_bytes(profile[at..at + 4].try_into().unwrap()) as usize;
        assert_eq!(number(0), profile.len());
        for tag in 0..number(128) {
            let entry = 132 + 12 * tag;
            let (start, length) = (number(entry + 4), number(entry + 8));
            assert!(start % 4 == 0 && start + length <= profile.len());
            let kind = &profile[start..start + 4];
            assert!([b"mluc", b"XYZ ", b"sf32", b"para"].iter().any(|known| &known[..] == kind));
        }
    }
}
