//! The page's program: all that the page itself does. What takes long is the worker's.

fn main() {
    stickleaf_web::start_page();
}
