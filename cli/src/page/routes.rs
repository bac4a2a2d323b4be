//! What can be asked, a line each.

use super::desk::Answer;
use super::door::{Door, guard};
use super::open_sheet::Change;
use super::room::Room;
use super::{Trouble, assets, show};
use axum::Json;
use axum::Router;
use axum::body::Bytes;
use axum::extract::{Query, State};
use axum::http::{StatusCode, Uri, header};
use axum::middleware::from_fn_with_state;
use axum::response::{IntoResponse, Response};
use axum::routing::{get, post};
use engine::quantity::Units;
use serde::Deserialize;
use serde::de::DeserializeOwned;
use serde_json::{Value, json};
use std::sync::Arc;

type Shared = State<Arc<Room>>;

/// Every route, behind the door.
pub(super) fn all(room: Arc<Room>, door: Arc<Door>) -> Router {
    Router::new()
        .route("/api/folder", get(folder))
        .route("/api/open", post(open))
        .route("/api/new", post(new_sheet))
        .route("/api/keys", get(keys))
        .route("/api/state", get(state))
        .route("/api/wait", get(wait))
        .route("/api/set", post(set))
        .route("/api/undo", post(undo))
        .route("/api/redo", post(redo))
        .route("/api/save", post(save))
        .route("/api/reload", post(reload))
        .route("/api/theirs", get(theirs))
        .route("/api/unsaved", post(unsaved))
        .route("/api/stop", post(stop))
        .fallback(file)
        .with_state(room)
        .layer(from_fn_with_state(door, guard))
}

/// The body of a request as what is asked for.
fn asked<T: DeserializeOwned>(body: &Bytes) -> Result<T, Trouble> {
    serde_json::from_slice(body).map_err(|e| Trouble::asked_wrongly(format!("this was asked in a wrong way: {e}")))
}

fn told(answer: Answer) -> Response {
    answer.map_or_else(IntoResponse::into_response, |value| Json(value).into_response())
}

/// A file of the page.
async fn file(uri: Uri) -> Response {
    match assets::file(uri.path().trim_start_matches('/')) {
        Some((bytes, kind)) => ([(header::CONTENT_TYPE, kind)], bytes.into_owned()).into_response(),
        None => StatusCode::NOT_FOUND.into_response(),
    }
}

async fn folder(State(room): Shared) -> Response {
    room.forget_previews();
    told(room.at_desk(|desk| Ok(desk.folder())).await)
}

#[derive(Deserialize)]
struct Named {
    file: String,
}

async fn open(State(room): Shared, body: Bytes) -> Response {
    let work = move |desk: &mut super::Desk| {
        desk.open(&asked::<Named>(&body)?.file)?;
        Ok(desk.state())
    };
    told(room.at_desk(work).await)
}

#[derive(Deserialize)]
struct New {
    file: String,
    units: String,
    name: Option<String>,
}

async fn new_sheet(State(room): Shared, body: Bytes) -> Response {
    let work = move |desk: &mut super::Desk| {
        let New { file, units, name } = asked(&body)?;
        let known = Units::ALL.iter().find(|(word, _)| *word == units);
        let (_, units) = known.ok_or_else(|| Trouble::asked_wrongly(format!("there is no unit “{units}”")))?;
        desk.new_sheet(&file, *units, name)
    };
    told(room.at_desk(work).await)
}

async fn keys() -> Response {
    Json(show::keys()).into_response()
}

async fn state(State(room): Shared) -> Response {
    told(room.at_desk(|desk| Ok(desk.state())).await)
}

#[derive(Deserialize)]
struct After {
    after: u64,
}

async fn wait(State(room): Shared, Query(After { after }): Query<After>) -> Json<Value> {
    Json(room.after(after).await)
}

#[derive(Deserialize)]
struct Set {
    changes: Vec<Change>,
    keep: bool,
    #[serde(default)]
    seq: u64,
    label: Option<String>,
}

async fn set(State(room): Shared, body: Bytes) -> Response {
    let Set { changes, keep, seq, label } = match asked(&body) {
        Ok(set) => set,
        Err(trouble) => return trouble.into_response(),
    };
    told(match keep {
        true => room.at_desk(move |desk| desk.set(&changes, label)).await,
        false => room.preview(seq, move |desk| desk.preview(&changes, seq)).await,
    })
}

async fn undo(State(room): Shared) -> Response {
    told(room.at_desk(super::Desk::undo).await)
}

async fn redo(State(room): Shared) -> Response {
    told(room.at_desk(super::Desk::redo).await)
}

#[derive(Deserialize)]
struct Save {
    #[serde(default)]
    force: bool,
}

async fn save(State(room): Shared, body: Bytes) -> Response {
    told(room.at_desk(move |desk| desk.save(asked::<Save>(&body)?.force)).await)
}

async fn reload(State(room): Shared) -> Response {
    told(room.at_desk(super::Desk::reload).await)
}

async fn theirs(State(room): Shared) -> Response {
    told(room.at_desk(|desk| desk.theirs()).await)
}

#[derive(Deserialize)]
struct Settle {
    take: bool,
}

async fn unsaved(State(room): Shared, body: Bytes) -> Response {
    told(room.at_desk(move |desk| desk.unsaved(asked::<Settle>(&body)?.take)).await)
}

async fn stop(State(room): Shared) -> Json<Value> {
    room.stop.notify_one();
    Json(json!({}))
}
