//! Tables in Markdown.

/// A table whose first column is left-aligned and whose others are right-aligned.
#[derive(Clone, Debug)]
pub struct Table {
    /// The heads of the columns.
    pub heads: Vec<String>,
    /// The rows, each with as many cells as there are heads.
    pub rows: Vec<Vec<String>>,
}

impl Table {
    /// A table without rows.
    pub fn new(heads: impl IntoIterator<Item = impl Into<String>>) -> Table {
        Table { heads: heads.into_iter().map(Into::into).collect(), rows: Vec::new() }
    }

    /// The table as Markdown, its columns padded so that it reads well as plain text too. A row with fewer cells than
    /// there are heads ends in empty ones.
    pub fn markdown(&self) -> String {
        let cell = |row: &[String], column: usize| row.get(column).cloned().unwrap_or_default();
        let width = |column: usize| {
            let cells = self.rows.iter().map(|row| cell(row, column)).chain([self.heads[column].clone()]);
            cells.map(|text| text.chars().count()).max().unwrap_or(0).max(3)
        };
        let widths: Vec<usize> = (0..self.heads.len()).map(width).collect();
        let line = |row: &[String]| {
            let cells = widths.iter().enumerate().map(|(column, &width)| {
                let text = cell(row, column);
                if column == 0 { format!("{text:<width$}") } else { format!("{text:>width$}") }
            });
            format!("| {} |\n", cells.collect::<Vec<_>>().join(" | "))
        };
        let rules = widths.iter().enumerate().map(|(column, &width)| {
            if column == 0 { "-".repeat(width) } else { format!("{}:", "-".repeat(width - 1)) }
        });
        let rule = format!("| {} |\n", rules.collect::<Vec<_>>().join(" | "));
        let rows: String = self.rows.iter().map(|row| line(row)).collect();
        format!("{}{rule}{rows}", line(&self.heads))
    }
}

/// The mean of some numbers; nothing of none.
pub fn mean(numbers: impl IntoIterator<Item = f64>) -> Option<f64> {
    let (sum, count) = numbers.into_iter().fold((0.0, 0), |(sum, count), number| (sum + number, count + 1));
    (count > 0).then(|| sum / f64::from(count))
}

/// The middle of some numbers in order, of two middle ones their mean; nothing of none.
pub fn median(numbers: impl IntoIterator<Item = f64>) -> Option<f64> {
    let mut numbers: Vec<f64> = numbers.into_iter().collect();
    numbers.sort_by(f64::total_cmp);
    let (lower, upper) = (numbers.get(numbers.len().checked_sub(1)? / 2)?, numbers.get(numbers.len() / 2)?);
    Some((lower + upper) / 2.0)
}

/// The greatest of some numbers; nothing of none.
pub fn greatest(numbers: impl IntoIterator<Item = f64>) -> Option<f64> {
    numbers.into_iter().max_by(f64::total_cmp)
}

/// A number with so many places behind the point, or a dash.
pub fn figure(number: Option<f64>, places: usize) -> String {
    number.map_or("-".to_owned(), |number| format!("{number:.places$}"))
}

/// Seconds as a head says them: `10 s`, `0.5 s`.
pub fn seconds(seconds: f64) -> String {
    format!("{seconds} s")
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn columns_are_padded_and_missing_cells_are_empty() {
        let mut table = Table::new(["instance", "n"]);
        table.rows = vec![vec!["fu".into(), "12".into()], vec!["mean".into()]];
        let text = "| instance |   n |\n| -------- | --: |\n| fu       |  12 |\n| mean     |     |\n";
        assert_eq!(table.markdown(), text);
    }

    #[test]
    fn figures_of_nothing_are_dashes() {
        assert_eq!(figure(mean([]), 2), "-");
        assert_eq!(figure(mean([1.0, 2.0]), 2), "1.50");
        assert_eq!([median([]), median([3.0, 1.0, 2.0]), median([4.0, 1.0])], [None, Some(2.0), Some(2.5)]);
        assert_eq!(figure(greatest([1.0, 3.0, 2.0]), 0), "3");
    }
}
