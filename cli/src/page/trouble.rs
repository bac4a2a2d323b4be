//! What stands in place of an answer where something cannot be done.

use axum::Json;
use axum::http::StatusCode;
use axum::response::{IntoResponse, Response};
use serde_json::json;

/// What is wrong, and what to do.
#[derive(Clone, Debug, PartialEq, Eq)]
pub(crate) struct Trouble {
    pub(crate) status: StatusCode,
    pub(crate) text: String,
    pub(crate) next: String,
}

impl Trouble {
    fn new(status: StatusCode, text: impl Into<String>, next: impl Into<String>) -> Self {
        Self { status, text: text.into(), next: next.into() }
    }

    /// Asked in a way that means nothing.
    pub(crate) fn asked_wrongly(text: impl Into<String>) -> Self {
        Self::new(StatusCode::BAD_REQUEST, text, "load the page again")
    }

    /// There is no such thing.
    pub(crate) fn not_there(text: impl Into<String>, next: impl Into<String>) -> Self {
        Self::new(StatusCode::NOT_FOUND, text, next)
    }

    /// Something stands against it that can change.
    pub(crate) fn not_now(text: impl Into<String>, next: impl Into<String>) -> Self {
        Self::new(StatusCode::CONFLICT, text, next)
    }

    /// Understood, and refused.
    pub(crate) fn refused(text: impl Into<String>, next: impl Into<String>) -> Self {
        Self::new(StatusCode::UNPROCESSABLE_ENTITY, text, next)
    }

    /// A fault of the program itself.
    pub(crate) fn fault(text: impl Into<String>) -> Self {
        Self::new(StatusCode::INTERNAL_SERVER_ERROR, text, "report it with the sheet: it is a fault of the program")
    }
}

impl IntoResponse for Trouble {
    fn into_response(self) -> Response {
        (self.status, Json(json!({ "trouble": { "text": self.text, "next": self.next } }))).into_response()
    }
}
