//! The page in a browser, driven by `tests/browser/measure.mjs`: a task in, a packed layout out.

use std::io::{self, BufRead, BufReader, Write};
use std::process::{Child, ChildStdin, ChildStdout, Command, Stdio};

use serde::{Deserialize, Serialize};
use stickleaf_packer::Aim;
use stickleaf_sheet::Layout;

use crate::trouble::Trouble;

/// The program that drives the page. What it says and hears stands on its top.
const DRIVER: &str = concat!(env!("CARGO_MANIFEST_DIR"), "/../../tests/browser/measure.mjs");

/// When packing in the page ends.
#[derive(Clone, Copy, Debug, Serialize)]
#[serde(rename_all = "lowercase")]
pub enum End {
    /// After so many rounds, or when nothing is left to try.
    Rounds(u64),
    /// When it is stopped after so many seconds, or when nothing is left to try.
    Seconds(f64),
}

/// A packed layout as the page saves it.
#[derive(Clone, Debug)]
pub struct Answer {
    /// From the page's word to its worker until the worker's last word.
    pub seconds: f64,
    /// The layout.
    pub layout: Layout,
}

/// The page, open in a browser until it is dropped.
pub struct Page {
    driver: Child,
    /// Closed first when the page is dropped, which ends the driver.
    tasks: Option<ChildStdin>,
    answers: BufReader<ChildStdout>,
}

#[derive(Serialize)]
struct Task<'a> {
    layout: &'a str,
    aim: &'static str,
    seed: u64,
    #[serde(flatten)]
    end: End,
}

#[derive(Deserialize)]
#[serde(untagged)]
enum Said {
    Packed { seconds: f64, layout: String },
    Trouble { trouble: String },
}

impl Page {
    /// Starts the driver, which opens the page that `STICKLEAF_URL` names.
    pub fn open() -> Result<Page, Trouble> {
        let mut command = Command::new("node");
        command.arg(DRIVER).stdin(Stdio::piped()).stdout(Stdio::piped());
        let mut driver = command.spawn().map_err(Trouble::Driver)?;
        let tasks = driver.stdin.take();
        let answers =
            driver.stdout.take().ok_or_else(|| Trouble::Driver(io::ErrorKind::BrokenPipe.into()))?;
        Ok(Page { driver, tasks, answers: BufReader::new(answers) })
    }

    /// Packs a layout file's text in one worker of the page. `name` is for the trouble there may be.
    pub fn pack(
        &mut self,
        name: &str,
        layout: &str,
        aim: Aim,
        seed: u64,
        end: End,
    ) -> Result<Answer, Trouble> {
        let task = Task { layout, aim: word(aim), seed, end };
        let said = self.ask(&task).map_err(Trouble::Driver)?;
        let trouble = |what| Trouble::Page { name: name.to_owned(), what };
        match said {
            Said::Packed { seconds, layout } => {
                let layout = stickleaf_files::read(&layout).map_err(|error| trouble(error.to_string()))?;
                Ok(Answer { seconds, layout })
            }
            Said::Trouble { trouble: what } => Err(trouble(what)),
        }
    }

    fn ask(&mut self, task: &Task<'_>) -> io::Result<Said> {
        let tasks = self.tasks.as_mut().ok_or(io::ErrorKind::BrokenPipe)?;
        writeln!(tasks, "{}", serde_json::to_string(task)?)?;
        let mut line = String::new();
        self.answers.read_line(&mut line)?;
        if line.is_empty() {
            return Err(io::Error::other("its driver has ended"));
        }
        Ok(serde_json::from_str(&line)?)
    }
}

impl Drop for Page {
    fn drop(&mut self) {
        drop(self.tasks.take());
        // It ends by itself when no more tasks come; how it ends changes no figure.
        let _ = self.driver.wait();
    }
}

/// The aim's name in files, at the command line and to the driver.
pub fn word(aim: Aim) -> &'static str {
    match aim {
        Aim::Place => "place",
        Aim::Fill => "fill",
        Aim::Grow => "grow",
        Aim::Even => "even",
        Aim::Shorten => "shorten",
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn tasks_and_answers_are_what_the_driver_reads_and_writes() {
        let task = |end| serde_json::to_string(&Task { layout: "{}", aim: "fill", seed: 7, end }).unwrap();
        assert_eq!(task(End::Rounds(20)), r#"{"layout":"{}","aim":"fill","seed":7,"rounds":20}"#);
        assert_eq!(task(End::Seconds(1.5)), r#"{"layout":"{}","aim":"fill","seed":7,"seconds":1.5}"#);
        let said = |text| serde_json::from_str::<Said>(text).unwrap();
        assert!(matches!(said(r#"{"seconds":1.5,"layout":"{}"}"#), Said::Packed { .. }));
        assert!(matches!(said(r#"{"trouble":"it is late"}"#), Said::Trouble { .. }));
    }
}
