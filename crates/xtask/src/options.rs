//! What was typed, and what it means. Reading does nothing else.

use crate::test::Part;
use crate::trouble::Trouble;

/// The help text.
pub const USAGE: &str = "\
usage: cargo xtask <command>

  build [--debug]                 compile the page into dist/, ready for any static host
  serve [--port N] [--no-build]   build, then serve dist/ on this machine (port 8080, or the next free one)
  test [--quick] [--only PART]... [--story NAME]...
                                  check everything, cheap things first; --quick leaves out docs, fuzz and browser;
                                  parts: fmt, lint, wasm-lint, docs, unit, fuzz, browser;
                                  --story runs only the browser stories whose file name holds NAME
  bench [FURTHER]...              measure the parts; what follows goes to the benches, for example a name to filter by
  bench packing|sheets|discs|spread|scale|browser [OPTION]...
                                  measure the packer; `--help` behind it lists the options (crates/bench/README.md);
                                  browser builds the page and measures in Chromium
  bench drag|start|memory|compose [OPTION]...
                                  build the page and measure it in Chromium: how smoothly a piece is dragged, how soon
                                  the page is there, whether its memory stays flat, what composing a large sheet takes";

/// The measurements of the packer, which are a program of their own and no benches of a crate.
const MEASUREMENTS: [&str; 6] = ["packing", "sheets", "discs", "spread", "scale", "browser"];

/// The measurements of the page itself: each is a script of `tests/browser`.
const PAGE_MEASUREMENTS: [&str; 4] = ["drag", "start", "memory", "compose"];

/// One command with all that it needs to know.
#[derive(Debug, PartialEq)]
pub enum Task {
    /// Print the help text.
    Help,
    /// Compile the page into `dist/`.
    Build(Profile),
    /// Serve `dist/`.
    Serve(Serve),
    /// Check everything, or some parts.
    Test(Test),
    /// Run the benches, with these further arguments for them.
    Bench(Vec<String>),
    /// Measure the packer: the words for the program that does it.
    Measure(Vec<String>),
    /// Measure the page: the name of the script that does it, and the words for it.
    MeasurePage(String, Vec<String>),
}

/// How the page is compiled.
#[derive(Clone, Copy, Debug, PartialEq)]
pub enum Profile {
    /// Small and fast, for people.
    Page,
    /// Quick to compile, with names in stack traces, for finding bugs.
    Debug,
}

/// How to serve.
#[derive(Debug, PartialEq)]
pub struct Serve {
    /// The port to try first.
    pub port: u16,
    /// False to serve `dist/` as it lies.
    pub build: bool,
}

/// What to check.
#[derive(Debug, PartialEq)]
pub struct Test {
    /// The parts to run, in their own order.
    pub parts: Vec<Part>,
    /// Parts of the file names of the browser stories to run; empty for all stories.
    pub stories: Vec<String>,
}

/// The task that the words after `cargo xtask` ask for. No words at all ask for help.
pub fn read(words: impl IntoIterator<Item = String>) -> Result<Task, Trouble> {
    let mut words = words.into_iter();
    let command = words.next().unwrap_or_default();
    match command.as_str() {
        "" | "help" | "--help" | "-h" => Ok(Task::Help),
        "build" => read_build(words),
        "serve" => read_serve(words),
        "test" => read_test(words),
        "bench" => Ok(read_bench(words.skip_while(|word| word == "--").collect())),
        other => Err(usage(format!("there is no command \"{other}\""))),
    }
}

fn read_bench(mut words: Vec<String>) -> Task {
    match words.first().map(String::as_str) {
        Some(word) if MEASUREMENTS.contains(&word) => Task::Measure(words),
        Some(word) if PAGE_MEASUREMENTS.contains(&word) => Task::MeasurePage(words.remove(0), words),
        _ => Task::Bench(words),
    }
}

fn read_build(words: impl Iterator<Item = String>) -> Result<Task, Trouble> {
    let mut profile = Profile::Page;
    for word in words {
        match word.as_str() {
            "--debug" => profile = Profile::Debug,
            other => return Err(unknown("build", other)),
        }
    }
    Ok(Task::Build(profile))
}

fn read_serve(mut words: impl Iterator<Item = String>) -> Result<Task, Trouble> {
    let mut serve = Serve { port: 8080, build: true };
    while let Some(word) = words.next() {
        match word.as_str() {
            "--no-build" => serve.build = false,
            "--port" => {
                let port = words.next().unwrap_or_default();
                serve.port = port
                    .parse()
                    .map_err(|_| usage(format!("--port takes a number from 0 to 65535, not \"{port}\"")))?;
            }
            other => return Err(unknown("serve", other)),
        }
    }
    Ok(Task::Serve(serve))
}

fn read_test(mut words: impl Iterator<Item = String>) -> Result<Task, Trouble> {
    let mut quick = false;
    let mut only = Vec::new();
    let mut stories = Vec::new();
    while let Some(word) = words.next() {
        match word.as_str() {
            "--quick" => quick = true,
            "--only" => {
                let name = words.next().unwrap_or_default();
                let part = Part::ALL.into_iter().find(|part| part.name() == name);
                only.push(part.ok_or_else(|| usage(format!("--only does not know the part \"{name}\"")))?);
            }
            "--story" => match words.next() {
                Some(name) => stories.push(name),
                None => return Err(usage("--story takes a part of a story's file name".to_owned())),
            },
            other => return Err(unknown("test", other)),
        }
    }
    if quick && !only.is_empty() {
        return Err(usage("--quick and --only both choose the parts; give one of them".to_owned()));
    }
    let asked = |part: &Part| if only.is_empty() { !quick || part.is_quick() } else { only.contains(part) };
    let parts: Vec<Part> = Part::ALL.into_iter().filter(asked).collect();
    if !stories.is_empty() && !parts.contains(&Part::Browser) {
        return Err(usage(
            "--story chooses browser stories, and the part \"browser\" is not asked for".to_owned(),
        ));
    }
    Ok(Task::Test(Test { parts, stories }))
}

fn unknown(command: &str, word: &str) -> Trouble {
    usage(format!("`{command}` does not know \"{word}\""))
}

fn usage(what: String) -> Trouble {
    Trouble::Usage { what }
}

#[cfg(test)]
mod tests {
    use super::*;

    fn typed(line: &str) -> Result<Task, Trouble> {
        read(line.split_whitespace().map(str::to_owned))
    }

    #[test]
    fn commands_have_the_documented_defaults() {
        assert_eq!(typed("").unwrap(), Task::Help);
        assert_eq!(typed("build").unwrap(), Task::Build(Profile::Page));
        assert_eq!(typed("serve").unwrap(), Task::Serve(Serve { port: 8080, build: true }));
        let all = Test { parts: Part::ALL.to_vec(), stories: Vec::new() };
        assert_eq!(typed("test").unwrap(), Task::Test(all));
    }

    #[test]
    fn options_change_the_defaults() {
        assert_eq!(typed("build --debug").unwrap(), Task::Build(Profile::Debug));
        assert_eq!(
            typed("serve --no-build --port 9000").unwrap(),
            Task::Serve(Serve { port: 9000, build: false })
        );
        assert_eq!(
            typed("bench -- trace --noplot").unwrap(),
            Task::Bench(vec!["trace".to_owned(), "--noplot".to_owned()])
        );
        assert_eq!(
            typed("bench packing --seeds 1").unwrap(),
            Task::Measure(vec!["packing".to_owned(), "--seeds".to_owned(), "1".to_owned()])
        );
        assert_eq!(
            typed("bench drag --seconds 3").unwrap(),
            Task::MeasurePage("drag".to_owned(), vec!["--seconds".to_owned(), "3".to_owned()])
        );
    }

    #[test]
    fn parts_run_in_their_own_order_and_once() {
        let Task::Test(test) = typed("test --only unit --only fmt --only unit").unwrap() else {
            panic!("`test` reads as another command");
        };
        assert_eq!(test.parts, [Part::Fmt, Part::Unit]);
    }

    #[test]
    fn quick_leaves_the_slow_parts_out() {
        let Task::Test(test) = typed("test --quick").unwrap() else {
            panic!("`test` reads as another command");
        };
        assert_eq!(test.parts, [Part::Fmt, Part::Lint, Part::WasmLint, Part::Unit]);
    }

    #[test]
    fn what_is_not_understood_is_named_in_the_answer() {
        for (line, named) in [
            ("bake", "bake"),
            ("build --fast", "--fast"),
            ("serve --port eighty", "eighty"),
            ("serve --port", "--port"),
            ("test --only everything", "everything"),
            ("test --quick --only fmt", "--quick"),
            ("test --quick --story smoke", "--story"),
        ] {
            let trouble = typed(line).unwrap_err();
            assert_eq!(trouble.exit_code(), 2, "{line}");
            assert!(trouble.to_string().lines().next().unwrap().contains(named), "{line}: {trouble}");
        }
    }
}
