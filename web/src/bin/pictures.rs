//! The program of workers that read pictures and make new ones.

fn main() {
    stickleaf_web::start_pictures();
}
