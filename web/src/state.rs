//! What the page knows: the editor with the layout, and what is open beside it. The only place that writes.

use leptos::prelude::*;
use stickleaf_editor::{Editor, Habits};
use stickleaf_sheet::{Layout, LayoutError, LengthUnit};

use crate::browser::time::after;
use crate::canvas::Flash;
use crate::choices::Choices;
use crate::keeping::Keeping;
use crate::pictures::Pictures;
use crate::preferences;
use crate::words::{self, Told};

/// How long what is carried has to rest before what does not follow every step is brought up to date, in milliseconds.
///
/// Common practice, no source.
const REST_MS: u32 = 150;

/// How often what is read while something is carried changes at most: every so many milliseconds. Faster nobody reads figures.
const BEAT_MS: u32 = 100;

/// Everything the page knows. Handles only, so it is copied freely; given to the parts of the page as context.
///
/// Parts read through [`Desk::read`], which makes them follow every change, and change through [`Desk::act`] or
/// [`Desk::change`], which tell the others.
#[derive(Clone, Copy)]
pub struct Desk {
    editor: StoredValue<Editor, LocalStorage>,
    revision: RwSignal<u64>,
    /// The layout's revision, and that of the preview if there is one: what changes whenever anything but what is carried does.
    standing: RwSignal<(u64, Option<u64>)>,
    /// The revision that is at rest: the last one, but while something is carried the one at which it last rested.
    rested: RwSignal<u64>,
    /// Whether somebody waits for what is carried to rest.
    rest_is_awaited: StoredValue<bool>,
    /// The revision of the last beat: the last one, but while something is carried it changes only so often.
    beat: RwSignal<u64>,
    /// Whether the next beat is on its way.
    beat_is_awaited: StoredValue<bool>,
    /// The layout as it was when the last change was finished; follows a preview, but not what is carried. So what shows
    /// stickers, rules or counts has nothing to do while a piece is dragged.
    pub layout: Memo<Layout>,
    /// Grows with every finished change of the layout.
    pub finished: Memo<u64>,
    /// What of it is on the device.
    pub keeping: Keeping,
    /// Grows whenever another layout takes the place of the one on the desk, with nothing to take back.
    pub begun: RwSignal<u64>,
    /// The pictures of the stickers and backgrounds, by file name.
    pub pictures: Pictures,
    /// The unit that lengths are shown and read in.
    pub unit: RwSignal<LengthUnit>,
    /// What the artist likes the hand to do; changed by [`Desk::set_habits`].
    pub habits: RwSignal<Habits>,
    /// Which place is open.
    pub place: RwSignal<Place>,
    /// Which panel is open; nothing closes the drawer on a narrow page.
    pub panel: RwSignal<Option<Panel>>,
    /// Whether the list of keys and gestures is open.
    pub keys_are_shown: RwSignal<bool>,
    /// Whether the dialog with shapes to rough a layout in is open.
    pub shapes_are_shown: RwSignal<bool>,
    /// The open menu of what can be done on the sheet.
    pub choices: RwSignal<Option<Choices>>,
    /// The pieces that light up on the sheet, so that they are found.
    pub flash: RwSignal<Option<Flash>>,
    /// What the page has to say at the moment.
    pub notice: RwSignal<Option<Notice>>,
    /// Whether what lies on the desk is a sample that nobody has touched: the layout revision it came with.
    pub untouched: RwSignal<Option<u64>>,
    /// False for the moment between the page's start and the first layout's arrival.
    pub is_settled: RwSignal<bool>,
    /// Picture files that came from beside the page, each with its folder; they can be had again after a reload.
    pub lent: RwSignal<Vec<(String, String)>>,
}

/// The places of the page.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Place {
    /// One layout, by hand.
    Desk,
    /// Variants of it side by side.
    Compare,
    /// Everything that leaves.
    Press,
    /// Runs: sums, and what is to be done.
    Month,
}

/// The panels beside the canvas.
#[derive(Clone, Debug, PartialEq, Eq)]
pub enum Panel {
    /// One sticker, by its id.
    Sticker(String),
    /// Size and rules.
    Sheet,
    /// Background styles and their zones.
    Background,
    /// What breaks a rule or is worth a look.
    Findings,
}

/// Something the page has to say, with what can be done about it.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Notice {
    /// The sentence.
    pub text: String,
    /// How it went.
    pub tone: Tone,
    /// What a button beside it offers.
    pub offer: Option<Offer>,
}

/// How something went.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Tone {
    /// As asked.
    Good,
    /// Done, but not all that was asked.
    Attention,
    /// Not done.
    Trouble,
}

/// What a notice offers.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Offer {
    /// Take the last change back.
    Undo,
    /// Put the restored sheet away and begin with the sample.
    StartFresh,
    /// Load the page again in its newer version.
    NewerVersion,
    /// Have the project back that was deleted last.
    UndoDelete,
    /// Pack the wanted pieces anew.
    PlaceThese,
    /// Let only the pen move pieces; to close it is an answer too.
    OnlyPen,
    /// Take back what was last put into the shop's figures.
    FiguresBack,
    /// Have the ticks of the run before back.
    TicksBack,
}

impl Desk {
    /// An empty desk.
    pub fn new() -> Desk {
        let mut editor = Editor::new(Layout::default());
        editor.names = words::new_names();
        editor.habits = preferences::habits();
        let habits = RwSignal::new(editor.habits);
        let editor = StoredValue::new_local(editor);
        let revision = RwSignal::new(0);
        let standing = RwSignal::new(editor.with_value(standing_of));
        let layout = Memo::new(move |_| {
            standing.track();
            editor.with_value(|editor| editor.layout().clone())
        });
        let finished = Memo::new(move |_| standing.get().0);
        Desk {
            editor,
            revision,
            standing,
            rested: RwSignal::new(0),
            rest_is_awaited: StoredValue::new(false),
            beat: RwSignal::new(0),
            beat_is_awaited: StoredValue::new(false),
            layout,
            finished,
            keeping: Keeping::new(),
            begun: RwSignal::new(0),
            pictures: Pictures::new(),
            unit: RwSignal::new(preferences::unit()),
            habits,
            place: RwSignal::new(Place::Desk),
            panel: RwSignal::new(None),
            keys_are_shown: RwSignal::new(false),
            shapes_are_shown: RwSignal::new(false),
            choices: RwSignal::new(None),
            flash: RwSignal::new(None),
            notice: RwSignal::new(None),
            untouched: RwSignal::new(None),
            is_settled: RwSignal::new(false),
            lent: RwSignal::new(Vec::new()),
        }
    }

    /// What the editor says now; the caller is called again after every change.
    pub fn read<T>(self, look: impl FnOnce(&Editor) -> T) -> T {
        self.revision.track();
        self.editor.with_value(look)
    }

    /// What the editor says now; the caller is called again after every change, but while something is carried only ten times a
    /// second. For figures that people read meanwhile: to show another one takes the browser longer than to move a piece.
    pub fn read_on_beat<T>(self, look: impl FnOnce(&Editor) -> T) -> T {
        self.beat.track();
        self.editor.with_value(look)
    }

    /// What the editor says now; the caller is called again after every change, but while something is carried only once it
    /// has rested for a moment. For what takes long to show, and for what does not depend on where it is carried.
    pub fn read_at_rest<T>(self, look: impl FnOnce(&Editor) -> T) -> T {
        self.rested.track();
        self.editor.with_value(look)
    }

    /// What the editor says now, and never again.
    pub fn peek<T>(self, look: impl FnOnce(&Editor) -> T) -> T {
        self.editor.with_value(look)
    }

    /// Lets the editor do something, and tells everybody who reads if that changed what is to be seen.
    ///
    /// The editor is not to be reached for from within.
    pub fn act<T>(self, deed: impl FnOnce(&mut Editor) -> T) -> T {
        let mut done = None;
        let mut is_changed = false;
        let mut refused = None;
        let was_carrying = self.peek(Editor::is_carrying);
        self.editor.update_value(|editor| {
            let before = editor.revision();
            done = Some(deed(editor));
            refused = editor.take_notice();
            is_changed = editor.revision() != before;
        });
        if let Some(refused) = refused {
            self.say_error(refused);
        }
        if is_changed {
            let standing = self.peek(standing_of);
            if self.standing.get_untracked() != standing {
                self.standing.set(standing);
            }
            self.revision.update(|revision| *revision += 1);
            // What is taken into the hand is shown at once, as is what is let go.
            if was_carrying && self.peek(Editor::is_carrying) {
                self.await_rest();
                self.await_beat();
            } else {
                self.rested.set(self.revision.get_untracked());
                self.beat.set(self.revision.get_untracked());
            }
        }
        done.expect("the editor's value lives as long as the page")
    }

    /// Tells those who read at rest when what is carried has rested.
    fn await_rest(self) {
        let now = self.revision.get_untracked();
        if !self.rest_is_awaited.get_value() {
            self.rest_is_awaited.set_value(true);
            after(REST_MS, move || {
                self.rest_is_awaited.set_value(false);
                if self.revision.get_untracked() == now {
                    self.rested.set(now);
                } else if self.peek(Editor::is_carrying) {
                    self.await_rest();
                }
            });
        }
    }

    /// Tells those who read on the beat when it is time.
    fn await_beat(self) {
        if !self.beat_is_awaited.get_value() {
            self.beat_is_awaited.set_value(true);
            after(BEAT_MS, move || {
                self.beat_is_awaited.set_value(false);
                self.beat.set(self.revision.get_untracked());
            });
        }
    }

    /// Lets the hand do so from now on, and in visits to come.
    pub fn set_habits(self, habits: Habits) {
        self.habits.set(habits);
        self.act(|editor| editor.habits = habits);
        preferences::keep_habits(habits);
    }

    /// Changes the layout as one undo step named `label`. A layout that makes no sense is refused and says why.
    pub fn change(self, label: &str, edit: impl FnOnce(&mut Layout)) -> Result<(), LayoutError> {
        self.act(|editor| editor.change(label, edit))
    }

    /// Changes the layout as one undo step where nothing can go wrong but by surprise; a surprise is told in a notice.
    pub fn change_or_say(self, label: &str, edit: impl FnOnce(&mut Layout)) {
        if let Err(error) = self.change(label, edit) {
            self.say_error(error);
        }
    }

    /// Takes another layout as one undo step.
    pub fn replace(self, label: &str, layout: Layout) -> Result<(), LayoutError> {
        self.act(|editor| editor.replace(label, layout))
    }

    /// Begins with this layout, of a project or a sample; there is nothing to take back afterwards.
    pub fn restore(self, layout: Layout) -> Result<(), LayoutError> {
        self.act(|editor| editor.begin(layout))?;
        self.untouched.set(None);
        self.panel.set(None);
        self.begun.update(|begun| *begun += 1);
        self.is_settled.set(true);
        Ok(())
    }

    /// Whether what lies on the desk may be put away without a loss: nothing at all, or a sample nobody touched.
    pub fn is_expendable(self) -> bool {
        self.peek(|editor| {
            editor.layout().stickers.is_empty()
                || self.untouched.get_untracked() == Some(editor.layout_revision())
        })
    }

    /// Marks what lies on the desk as an untouched sample.
    pub fn mark_untouched(self) {
        self.untouched.set(Some(self.peek(Editor::layout_revision)));
    }

    /// Says something that went well.
    pub fn say(self, text: impl Into<String>, offer: Option<Offer>) {
        self.notice.set(Some(Notice { text: text.into(), tone: Tone::Good, offer }));
    }

    /// Says that not all that was asked could be done.
    pub fn say_attention(self, text: impl Into<String>, offer: Option<Offer>) {
        self.notice.set(Some(Notice { text: text.into(), tone: Tone::Attention, offer }));
    }

    /// Says that an error kept something from being done.
    pub fn say_error(self, error: impl Told) {
        self.say_trouble(words::sentence(&error.told()));
    }

    /// Says what went wrong, in whole sentences that say what to do.
    pub fn say_trouble(self, text: impl Into<String>) {
        self.notice.set(Some(Notice { text: text.into(), tone: Tone::Trouble, offer: None }));
    }

    /// A length with its unit, in the unit that is chosen.
    pub fn length(self, mm: f64) -> String {
        words::length(self.unit.get(), mm)
    }
}

/// What [`Desk::layout`] depends on.
fn standing_of(editor: &Editor) -> (u64, Option<u64>) {
    (editor.layout_revision(), editor.is_previewing().then(|| editor.revision()))
}

/// The desk of this page.
pub fn use_desk() -> Desk {
    expect_context::<Desk>()
}
