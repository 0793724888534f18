//! The table: what was measured beside what must be reached.

use serde::Serialize;

/// One line.
#[derive(Serialize)]
pub(super) struct Row {
    /// What is measured.
    pub(super) what: &'static str,
    /// None: not measured; `note` says why.
    pub(super) measured: Option<f64>,
    /// Unit of the numbers.
    pub(super) unit: &'static str,
    /// What the design asks for at least or at most.
    pub(super) must_reach: Option<f64>,
    /// What it would like to reach.
    pub(super) aim: Option<f64>,
    /// On what, or why not.
    pub(super) note: String,
}

/// The table to read.
pub(super) fn text(rows: &[Row]) -> String {
    let line = |cells: [&str; 6]| {
        let [what, measured, unit, must_reach, aim, note] = cells;
        format!("{what:<36}{measured:>9}  {unit:<12}{must_reach:>8}{aim:>8}  {note}")
    };
    let mut lines = vec![line(["what", "measured", "unit", "must", "aim", "on"])];
    for row in rows {
        lines.push(line([
            row.what,
            &number(row.measured),
            row.unit,
            &number(row.must_reach),
            &number(row.aim),
            &row.note,
        ]));
    }
    lines.join("\n")
}

fn number(value: Option<f64>) -> String {
    match value {
        None => "-".to_owned(),
        Some(value) if value.abs() >= 100.0 => format!("{value:.0}"),
        Some(value) if value.abs() >= 10.0 => format!("{value:.1}"),
        Some(value) => format!("{value:.2}"),
    }
}
