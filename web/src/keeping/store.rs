//! The door to IndexedDB: the only file that knows how things are laid out on the device.
//!
//! Four stores. `projects` and `layouts` hold a record and a text for each project, by its id, and are always written
//! together. `versions` holds the earlier states, by project id and time. `pictures` holds bytes by their content's
//! name, each once however many states use them. Every function is one transaction: it happens as a whole or not at
//! all, even if the browser dies in the middle.

use idb::{Database, DatabaseEvent, Factory, KeyRange, ObjectStoreParams, Query, TransactionMode};
use idb::{ObjectStore, Transaction};
use js_sys::{Promise, Reflect};
use serde::Serialize;
use serde::de::DeserializeOwned;
use wasm_bindgen::{JsCast, JsValue};
use wasm_bindgen_futures::JsFuture;
use web_sys::{Blob, DomException, IdbTransaction};

use super::records::{Project, Version, picture_keys};
use super::save_state::Why;

const NAME: &str = "stickleaf";
const FORMAT: u32 = 1;

const PROJECTS: &str = "projects";
const LAYOUTS: &str = "layouts";
const VERSIONS: &str = "versions";
const PICTURES: &str = "pictures";

/// How long a picture that no state uses stays, in milliseconds: its project may just be on its way.
const PICTURE_GRACE_MS: f64 = 3_600_000.0;

/// What is kept on the device.
pub struct Store {
    database: Database,
}

/// What a write relies on.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Relying {
    /// That the device holds this revision of the project, or none of it at all; else nothing is written.
    On(u64),
    /// That this tab alone writes to it. What is written at once cannot look first: for the moment when a page goes.
    OnLock,
}

/// A write on its way.
pub struct Writing {
    transaction: IdbTransaction,
    found: Option<(idb::request::GetStoreRequest, u64)>,
}

impl Store {
    /// Opens it, empty if there was none.
    ///
    /// Errors: the browser keeps nothing for this page.
    pub async fn open() -> Result<Store, Why> {
        let mut request =
            Factory::new().and_then(|factory| factory.open(NAME, Some(FORMAT))).map_err(|_| Why::Refused)?;
        request.on_upgrade_needed(|event| {
            if let Ok(database) = event.database() {
                for store in [PROJECTS, LAYOUTS, VERSIONS, PICTURES] {
                    // Without its stores the database is of no use, which the first read tells.
                    let _ = database.create_object_store(store, ObjectStoreParams::new());
                }
            }
        });
        let mut database = request.await.map_err(|_| Why::Refused)?;
        // Another tab brings a later format: this one's connection must not stand in the way.
        database.on_version_change(|event| {
            if let Ok(database) = event.database() {
                database.close();
            }
        });
        Ok(Store { database })
    }

    /// All projects, those deleted too, in no order. Records that make no sense are passed over.
    pub async fn projects(&self) -> Result<Vec<Project>, Why> {
        let transaction = self.transaction(&[PROJECTS], TransactionMode::ReadOnly)?;
        all(&transaction, PROJECTS, None).await
    }

    /// A project and the text of its layout; nothing if there is none of this id.
    pub async fn load(&self, id: &str) -> Result<Option<(Project, String)>, Why> {
        let transaction = self.transaction(&[PROJECTS, LAYOUTS], TransactionMode::ReadOnly)?;
        let project = store(&transaction, PROJECTS)?.get(JsValue::from_str(id)).map_err(why)?;
        let layout = store(&transaction, LAYOUTS)?.get(JsValue::from_str(id)).map_err(why)?;
        // Both listen before the first is waited for.
        let (project, layout) = (project.into_future(), layout.into_future());
        let project = project.await.map_err(why)?.and_then(|value| read(&value));
        let layout = layout.await.map_err(why)?.and_then(|value| value.as_string());
        Ok(project.zip(layout))
    }

    /// Begins to write a project with its layout; see [`Relying`]. The requests are on their way when this returns.
    pub fn save(&self, project: &Project, layout: &str, relying: Relying) -> Result<Writing, Why> {
        let transaction = self.transaction(&[PROJECTS, LAYOUTS], TransactionMode::ReadWrite)?;
        let (projects, layouts) = (store(&transaction, PROJECTS)?, store(&transaction, LAYOUTS)?);
        let key = JsValue::from_str(&project.id);
        let found = match relying {
            Relying::On(revision) => Some((projects.get(key.clone()).map_err(why)?, revision)),
            Relying::OnLock => None,
        };
        projects.put(&written(project), Some(&key)).map_err(why)?;
        layouts.put(&JsValue::from_str(layout), Some(&key)).map_err(why)?;
        let transaction = if found.is_none() { transaction.commit().map_err(why)? } else { transaction };
        Ok(Writing { transaction: transaction.into(), found })
    }

    /// Writes a project's record alone, as when it is deleted or had back.
    ///
    /// Errors: [`Why::TakenOver`] if the device holds another revision than the record's own; then nothing is written.
    pub async fn mark(&self, project: &Project) -> Result<(), Why> {
        let transaction = self.transaction(&[PROJECTS], TransactionMode::ReadWrite)?;
        let projects = store(&transaction, PROJECTS)?;
        let key = JsValue::from_str(&project.id);
        let found = projects.get(key.clone()).map_err(why)?;
        projects.put(&written(project), Some(&key)).map_err(why)?;
        Writing { transaction: transaction.into(), found: Some((found, project.revision)) }.end().await
    }

    /// The earlier states of a project, the oldest first.
    pub async fn versions(&self, id: &str) -> Result<Vec<Version>, Why> {
        let transaction = self.transaction(&[VERSIONS], TransactionMode::ReadOnly)?;
        all(&transaction, VERSIONS, Some(versions_of(id)?)).await
    }

    /// Keeps an earlier state, and lets those of these times go.
    pub async fn add_version(&self, id: &str, version: &Version, going_ms: &[f64]) -> Result<(), Why> {
        let transaction = self.transaction(&[VERSIONS], TransactionMode::ReadWrite)?;
        let versions = store(&transaction, VERSIONS)?;
        versions.put(&written(version), Some(&version_key(id, version.at_ms))).map_err(why)?;
        for &at_ms in going_ms {
            versions.delete(version_key(id, at_ms)).map_err(why)?;
        }
        ended(transaction.into()).await
    }

    /// A picture's bytes; nothing if there is none of this name.
    pub async fn picture(&self, key: &str) -> Result<Option<Blob>, Why> {
        let transaction = self.transaction(&[PICTURES], TransactionMode::ReadOnly)?;
        let found =
            store(&transaction, PICTURES)?.get(JsValue::from_str(key)).map_err(why)?.await.map_err(why)?;
        Ok(found.and_then(|value| Reflect::get(&value, &"bytes".into()).ok()?.dyn_into().ok()))
    }

    /// Keeps a picture's bytes under the name of their content.
    pub async fn put_picture(&self, key: &str, bytes: &Blob, now_ms: f64) -> Result<(), Why> {
        let transaction = self.transaction(&[PICTURES], TransactionMode::ReadWrite)?;
        let value = js_sys::Object::new();
        // A plain object takes every property.
        let _ = Reflect::set(&value, &"bytes".into(), bytes);
        let _ = Reflect::set(&value, &"kept_ms".into(), &now_ms.into());
        store(&transaction, PICTURES)?.put(&value, Some(&JsValue::from_str(key))).map_err(why)?;
        ended(transaction.into()).await
    }

    /// Lets go of a project for good, with its earlier states. Its pictures go with the next sweep.
    pub async fn remove(&self, id: &str) -> Result<(), Why> {
        let transaction = self.transaction(&[PROJECTS, LAYOUTS, VERSIONS], TransactionMode::ReadWrite)?;
        for name in [PROJECTS, LAYOUTS] {
            store(&transaction, name)?.delete(JsValue::from_str(id)).map_err(why)?;
        }
        store(&transaction, VERSIONS)?.delete(versions_of(id)?).map_err(why)?;
        ended(transaction.into()).await
    }

    /// Lets go of projects that were deleted before a time, of earlier states without a project, and of pictures that
    /// no state uses any more.
    pub async fn sweep(&self, deleted_before_ms: f64, now_ms: f64) -> Result<(), Why> {
        let transaction =
            self.transaction(&[PROJECTS, LAYOUTS, VERSIONS, PICTURES], TransactionMode::ReadWrite)?;
        let (projects, versions) = (store(&transaction, PROJECTS)?, store(&transaction, VERSIONS)?);
        let mut used = Vec::new();
        for project in all::<Project>(&transaction, PROJECTS, None).await? {
            let key = JsValue::from_str(&project.id);
            if project.deleted_ms.is_some_and(|at_ms| at_ms < deleted_before_ms) {
                versions.delete(versions_of(&project.id)?).map_err(why)?;
                store(&transaction, LAYOUTS)?.delete(key.clone()).map_err(why)?;
                projects.delete(key).map_err(why)?;
            } else {
                used.extend(picture_keys(project.art.iter()));
            }
        }
        for version in all::<Version>(&transaction, VERSIONS, None).await? {
            used.extend(picture_keys(version.art.iter()));
        }
        let pictures = store(&transaction, PICTURES)?;
        let keys = pictures.get_all_keys(None, None).map_err(why)?.await.map_err(why)?;
        for key in keys {
            if key.as_string().is_some_and(|key| used.contains(&key)) {
                continue;
            }
            let found = pictures.get(key.clone()).map_err(why)?.await.map_err(why)?;
            let kept_ms = found.and_then(|value| Reflect::get(&value, &"kept_ms".into()).ok()?.as_f64());
            if kept_ms.is_none_or(|kept_ms| now_ms - kept_ms > PICTURE_GRACE_MS) {
                pictures.delete(key).map_err(why)?;
            }
        }
        ended(transaction.into()).await
    }

    fn transaction(&self, stores: &[&str], mode: TransactionMode) -> Result<Transaction, Why> {
        self.database.transaction(stores, mode).map_err(why)
    }
}

impl Writing {
    /// Waits until it is on the device.
    ///
    /// Errors: [`Why::TakenOver`] if the device held another revision than was relied on; [`Why::Full`]; others. In all
    /// of them nothing was written.
    pub async fn end(self) -> Result<(), Why> {
        let Writing { transaction, found } = self;
        let end = ending(&transaction);
        if let Some((request, relied_on)) = found {
            // If it fails, so does the transaction, which says why.
            let held = request.await.ok().flatten().and_then(|value| read::<Project>(&value));
            // A project that is gone, as when the device was cleared, has no newer state to lose.
            if held.is_some_and(|project| project.revision != relied_on) {
                // Once it has ended by itself there is nothing to hold back.
                let _ = transaction.abort();
                let _ = end.await;
                return Err(Why::TakenOver);
            }
        }
        end.await
    }
}

async fn ended(transaction: IdbTransaction) -> Result<(), Why> {
    ending(&transaction).await
}

/// What waits for a transaction's end. It listens from the moment it is made.
fn ending(transaction: &IdbTransaction) -> impl Future<Output = Result<(), Why>> + use<> {
    let mut listener = Transaction::from(transaction.clone());
    let promise = Promise::new(&mut |done, failed| {
        let transaction = transaction.clone();
        listener.on_complete(move |_| drop(done.call0(&JsValue::NULL)));
        listener.on_abort(move |_| {
            let error = transaction.error().map_or(JsValue::NULL, JsValue::from);
            drop(failed.call1(&JsValue::NULL, &error));
        });
    });
    async move {
        let result = JsFuture::from(promise).await;
        drop(listener);
        result.map(drop).map_err(|error| why_of(&error))
    }
}

fn store(transaction: &Transaction, name: &str) -> Result<ObjectStore, Why> {
    transaction.object_store(name).map_err(why)
}

async fn all<T: DeserializeOwned>(
    transaction: &Transaction,
    name: &str,
    range: Option<KeyRange>,
) -> Result<Vec<T>, Why> {
    let request = store(transaction, name)?.get_all(range.map(Query::from), None).map_err(why)?;
    Ok(request.await.map_err(why)?.iter().filter_map(read).collect())
}

/// All keys of a project's earlier states: "/" comes before "0".
fn versions_of(id: &str) -> Result<KeyRange, Why> {
    let (low, high) = (format!("{id}/"), format!("{id}0"));
    KeyRange::bound(&low.into(), &high.into(), None, Some(true)).map_err(why)
}

/// Keys in the order of the times.
fn version_key(id: &str, at_ms: f64) -> JsValue {
    format!("{id}/{at_ms:016.0}").into()
}

fn written(record: &impl Serialize) -> JsValue {
    // Plain structs, numbers and texts always make JSON.
    serde_json::to_string(record).unwrap_or_default().into()
}

fn read<T: DeserializeOwned>(value: &JsValue) -> Option<T> {
    serde_json::from_str(&value.as_string()?).ok()
}

/// What an error of the library comes to.
fn why(error: idb::Error) -> Why {
    match error {
        idb::Error::DomException(error) => why_of(&error),
        idb::Error::AddFailed(error)
        | idb::Error::UpdateFailed(error)
        | idb::Error::GetFailed(error)
        | idb::Error::TransactionOpenFailed(error) => why_of(&error),
        _ => Why::Failed,
    }
}

fn why_of(error: &JsValue) -> Why {
    match error.dyn_ref::<DomException>().map(DomException::name).as_deref() {
        Some("QuotaExceededError") => Why::Full,
        _ => Why::Failed,
    }
}
