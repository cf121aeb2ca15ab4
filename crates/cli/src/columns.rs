//! Tables for people: columns under each other.

/// The rows as lines of text, columns two blanks apart; the first column runs to the left, the others to the right.
///
/// Widths count characters, not bytes. Empty for no rows.
pub fn columns(rows: &[Vec<String>]) -> String {
    let width = |column: usize| {
        rows.iter().filter_map(|row| row.get(column)).map(|cell| cell.chars().count()).max().unwrap_or(0)
    };
    let count = rows.iter().map(Vec::len).max().unwrap_or(0);
    let widths: Vec<usize> = (0..count).map(width).collect();
    let mut text = String::new();
    for row in rows {
        let cells: Vec<String> = row
            .iter()
            .zip(&widths)
            .enumerate()
            .map(
                |(i, (cell, &width))| {
                    if i == 0 { format!("{cell:<width$}") } else { format!("{cell:>width$}") }
                },
            )
            .collect();
        text.push_str(cells.join("  ").trim_end());
        text.push('\n');
    }
    text
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn numbers_stand_under_each_other() {
        let rows = [["sticker", "placed"], ["Süß", "2"], ["Crab", "12"]];
        let rows: Vec<Vec<String>> = rows.iter().map(|row| row.map(str::to_owned).to_vec()).collect();
        assert_eq!(columns(&rows), "sticker  placed\nSüß           2\nCrab         12\n");
        assert_eq!(columns(&[]), "");
    }
}
