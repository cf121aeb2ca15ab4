//! The program of workers that search: packing, comparing, the empty room.

fn main() {
    if let Err(error) = stickleaf_web::start_searching() {
        wasm_bindgen::throw_val(error);
    }
}
