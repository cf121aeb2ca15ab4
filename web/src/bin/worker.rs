//! The worker's program: packing, comparing, the empty room, and reading pictures.

fn main() {
    if let Err(error) = stickleaf_web::start_worker() {
        wasm_bindgen::throw_val(error);
    }
}
