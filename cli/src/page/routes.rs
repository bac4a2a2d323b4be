//! What can be asked, a line each.

use super::change::Change;
use super::desk::Answer;
use super::door::{Door, guard};
use super::room::Room;
use super::{Desk, Trouble, assets, files, lays, looks, person, pull, remedy, show, tables, trials, variants};
use crate::output::Ready;
use axum::Json;
use axum::Router;
use axum::body::Bytes;
use axum::extract::{Path, Query, RawQuery, State};
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
        .route("/api/reach", post(reach))
        .route("/api/measure", post(measure))
        .route("/api/remedy", post(solve))
        .route("/api/lesson", get(lesson))
        .route("/api/fit", post(fit))
        .route("/api/trial", post(trial))
        .route("/api/apply", post(apply))
        .route("/api/variant", post(variant))
        .route("/api/compare", post(compare))
        .route("/api/lay", post(lay))
        .route("/api/people", post(people))
        .route("/api/sizes", post(sizes))
        .route("/api/cell", post(cell))
        .route("/api/copy", post(copy))
        .route("/api/person", post(one_person))
        .route("/api/figure/{name}", get(figure))
        .route("/api/finish/{name}", get(finish))
        .route("/api/files", get(list))
        .route("/api/file/{name}", get(one_file))
        .route("/api/zip", get(zip))
        .route("/api/write", post(write))
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
    let work = move |desk: &mut Desk| {
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
    let work = move |desk: &mut Desk| {
        let New { file, units, name } = asked(&body)?;
        let known = Units::ALL.iter().find(|(word, _)| *word == units);
        let (_, units) = known.ok_or_else(|| Trouble::asked_wrongly(format!("there is no unit “{units}”")))?;
        desk.new_sheet(&file, *units, name.as_deref())
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
    told(room.at_desk(Desk::undo).await)
}

async fn redo(State(room): Shared) -> Response {
    told(room.at_desk(Desk::redo).await)
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
    told(room.at_desk(Desk::reload).await)
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

/// Looks at the desk by what is asked, and answers.
async fn looked<T: DeserializeOwned + 'static>(
    room: Arc<Room>,
    body: Bytes,
    look: fn(&Desk, &T) -> Answer,
) -> Response {
    told(room.at_desk(move |desk| look(desk, &asked(&body)?)).await)
}

/// Changes something on the desk by what is asked, and answers.
async fn done<T: DeserializeOwned + 'static>(
    room: Arc<Room>,
    body: Bytes,
    work: fn(&mut Desk, &T) -> Answer,
) -> Response {
    told(room.at_desk(move |desk| work(desk, &asked(&body)?)).await)
}

async fn reach(State(room): Shared, body: Bytes) -> Response {
    looked(room, body, pull::range).await
}

async fn measure(State(room): Shared, body: Bytes) -> Response {
    looked(room, body, pull::measure).await
}

async fn solve(State(room): Shared, body: Bytes) -> Response {
    done(room, body, remedy::remedy).await
}

async fn lesson(State(room): Shared) -> Response {
    told(room.at_desk(|desk| trials::ask(desk, &trials::Trial::default())).await)
}

async fn fit(State(room): Shared, body: Bytes) -> Response {
    looked(room, body, trials::ask).await
}

async fn trial(State(room): Shared, body: Bytes) -> Response {
    done(room, body, trials::record).await
}

async fn apply(State(room): Shared, body: Bytes) -> Response {
    done(room, body, trials::apply).await
}

async fn variant(State(room): Shared, body: Bytes) -> Response {
    told(room.at_desk(move |desk| variants::add(desk, asked(&body)?)).await)
}

async fn compare(State(room): Shared, body: Bytes) -> Response {
    looked(room, body, variants::compared).await
}

async fn lay(State(room): Shared, body: Bytes) -> Response {
    let wanted: lays::Wanted = match asked(&body) {
        Ok(wanted) => wanted,
        Err(trouble) => return trouble.into_response(),
    };
    told(room.lay(wanted.seq, |desk| lays::take(desk, wanted), lays::laid).await)
}

async fn people(State(room): Shared, body: Bytes) -> Response {
    told(room.aside(move |desk| tables::take(desk, asked(&body)?), tables::people).await)
}

async fn sizes(State(room): Shared, body: Bytes) -> Response {
    told(room.aside(move |desk| tables::take(desk, asked(&body)?), tables::sizes).await)
}

async fn cell(State(room): Shared, body: Bytes) -> Response {
    looked(room, body, tables::mend).await
}

async fn copy(State(room): Shared, body: Bytes) -> Response {
    looked(room, body, tables::copy).await
}

async fn one_person(State(room): Shared, body: Bytes) -> Response {
    done(room, body, person::open).await
}

fn picture(svg: Result<String, Trouble>) -> Response {
    match svg {
        Ok(svg) => ([(header::CONTENT_TYPE, "image/svg+xml")], svg).into_response(),
        Err(trouble) => trouble.into_response(),
    }
}

async fn figure(Path(name): Path<String>) -> Response {
    picture(looks::figure(&name))
}

async fn finish(Path(name): Path<String>) -> Response {
    picture(looks::finish(&name))
}

async fn list(State(room): Shared) -> Response {
    told(room.at_desk(|desk| files::list(desk)).await)
}

/// A file to take away. A browser is told to keep it, and never to look into it as a page.
fn handed(file: Result<Ready, Trouble>) -> Response {
    let Ready { name, bytes, .. } = match file {
        Ok(file) => file,
        Err(trouble) => return trouble.into_response(),
    };
    let kind = match name.rsplit('.').next() {
        Some("pdf") => "application/pdf",
        Some("svg") => "image/svg+xml",
        Some("json") => "application/json",
        Some("md") => "text/markdown; charset=utf-8",
        Some("zip") => "application/zip",
        _ => "application/octet-stream",
    };
    ([(header::CONTENT_TYPE, kind), (header::CONTENT_DISPOSITION, "attachment")], bytes).into_response()
}

async fn one_file(State(room): Shared, Path(name): Path<String>, RawQuery(query): RawQuery) -> Response {
    handed(room.at_desk(move |desk| files::one(desk, &name, &query.unwrap_or_default())).await)
}

async fn zip(State(room): Shared, RawQuery(query): RawQuery) -> Response {
    handed(room.at_desk(move |desk| files::zipped(desk, &query.unwrap_or_default())).await)
}

async fn write(State(room): Shared, body: Bytes) -> Response {
    looked(room, body, files::write).await
}

async fn stop(State(room): Shared) -> Json<Value> {
    room.stop.notify_one();
    Json(json!({}))
}
