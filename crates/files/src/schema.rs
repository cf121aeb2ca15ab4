//! JSON Schema of the layout and of the placement file, for programs that want to check what they read or write.
//!
//! Draft 2020-12. Made from the very structs that read and write, so the schema cannot say anything else.

use schemars::JsonSchema;
use schemars::generate::SchemaSettings;
use serde_json::{Map, Value, json};

use crate::placement_file::PlacementShape;
use crate::pretty::pretty;
use crate::shape::LayoutShape;

/// The schema of the layout file.
pub fn layout() -> String {
    pretty(&schema::<LayoutShape>())
}

/// The schema of the placement file.
pub fn placement() -> String {
    pretty(&schema::<PlacementShape>())
}

/// Both schemas in one object, as `layout` and `placement`.
pub fn both() -> String {
    pretty(&json!({"layout": schema::<LayoutShape>(), "placement": schema::<PlacementShape>()}))
}

fn schema<T: JsonSchema>() -> Value {
    let generator = SchemaSettings::draft2020_12().into_generator();
    let schema = generator.into_root_schema_for::<T>();
    // What a reader wants to know first comes first.
    let mut fields: Map<String, Value> = Map::new();
    for name in ["$schema", "title", "description"] {
        fields.extend(schema.get(name).map(|value| (name.to_owned(), value.clone())));
    }
    for (name, value) in schema.as_object().into_iter().flatten() {
        fields.entry(name.as_str()).or_insert_with(|| value.clone());
    }
    Value::Object(fields)
}
