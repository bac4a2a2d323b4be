//! Who may come in: this page alone, opened from the address that was told. Other pages, other machines
//! and names that were bent to point here are turned away before anything is read.

use axum::Extension;
use axum::body::{Body, to_bytes};
use axum::extract::{Request, State};
use axum::http::header::{self, HeaderName, HeaderValue};
use axum::http::{HeaderMap, Method, StatusCode};
use axum::middleware::Next;
use axum::response::{IntoResponse, Response};
use sha2::{Digest, Sha256};
use std::sync::Arc;
use std::time::{Duration, Instant};

/// The header that carries the token.
const TOKEN: HeaderName = HeaderName::from_static("x-quarterpin-token");

/// No body is larger than this, in bytes.
const MOST: usize = 256 * 1024;
/// Nor slower.
const LONGEST: Duration = Duration::from_secs(10);

/// What the browser may do with the page: nothing but itself.
const POLICY: &str = "default-src 'none'; script-src 'self'; style-src 'self'; img-src 'self' data: blob:; \
                      connect-src 'self'; font-src 'self'; frame-src blob:; base-uri 'none'; form-action 'none'; \
                      frame-ancestors 'none'";

const HEADERS: [(HeaderName, &str); 7] = [
    (header::CONTENT_SECURITY_POLICY, POLICY),
    (header::X_CONTENT_TYPE_OPTIONS, "nosniff"),
    (header::CACHE_CONTROL, "no-store"),
    (header::REFERRER_POLICY, "no-referrer"),
    (header::X_FRAME_OPTIONS, "DENY"),
    (HeaderName::from_static("cross-origin-opener-policy"), "same-origin"),
    (HeaderName::from_static("cross-origin-resource-policy"), "same-origin"),
];

/// The names that this address has.
#[derive(Debug)]
pub(super) struct Door {
    hosts: [String; 2],
    /// Of the token: comparing digests tells nothing of it by how long it takes.
    digest: [u8; 32],
}

impl Door {
    pub(super) fn new(port: u16, token: &str) -> Self {
        Self { hosts: [format!("127.0.0.1:{port}"), format!("localhost:{port}")], digest: digest(token) }
    }

    /// Is it this page that asks?
    fn lets_in(&self, headers: &HeaderMap, path: &str) -> Result<Guest, StatusCode> {
        let one = |name: HeaderName| {
            let mut all = headers.get_all(name).iter();
            match (all.next(), all.next()) {
                (None, _) => Ok(None),
                (Some(value), None) => value.to_str().map(Some).map_err(|_| StatusCode::FORBIDDEN),
                (Some(_), Some(_)) => Err(StatusCode::FORBIDDEN),
            }
        };
        let is_own = |host: &str| self.hosts.iter().any(|own| own == host);
        if !one(header::HOST)?.is_some_and(is_own) {
            return Err(StatusCode::FORBIDDEN);
        }
        if one(header::ORIGIN)?.is_some_and(|origin| !origin.strip_prefix("http://").is_some_and(is_own)) {
            return Err(StatusCode::FORBIDDEN);
        }
        let is_api = path.starts_with("/api/");
        let site = one(HeaderName::from_static("sec-fetch-site"))?;
        if is_api && site.is_some_and(|site| site != "same-origin") {
            return Err(StatusCode::FORBIDDEN);
        }
        match one(TOKEN)? {
            Some(token) if digest(token) == self.digest => Ok(Guest::Known),
            _ if is_api => Err(StatusCode::UNAUTHORIZED),
            _ => Ok(Guest::Stranger),
        }
    }
}

/// Who asks.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
enum Guest {
    /// With the token.
    Known,
    /// Without; gets the page's own files and nothing else.
    Stranger,
}

fn digest(token: &str) -> [u8; 32] {
    Sha256::digest(token.as_bytes()).into()
}

/// Stands before every request: lets it in or not, reads its body, and says what the browser may do.
pub(super) async fn guard(
    State(door): State<Arc<Door>>,
    Extension(visit): Extension<Arc<super::crowd::Visit>>,
    request: Request,
    next: Next,
) -> Response {
    let mut response = match door.lets_in(request.headers(), request.uri().path()) {
        Err(status) => status.into_response(),
        Ok(guest) => {
            if guest == Guest::Known {
                visit.trust();
            }
            match whole(request).await {
                Ok(request) => timed(next.run(request)).await,
                Err(status) => status.into_response(),
            }
        }
    };
    for (name, value) in HEADERS {
        response.headers_mut().insert(name, HeaderValue::from_static(value));
    }
    response
}

/// The answer, which says how long it took from the whole request on: a browser's tools show it.
async fn timed(answer: impl Future<Output = Response>) -> Response {
    let begun = Instant::now();
    let mut response = answer.await;
    let took = format!("program;dur={:.2}", begun.elapsed().as_secs_f64() * 1e3);
    if let Ok(value) = HeaderValue::from_str(&took) {
        response.headers_mut().insert(HeaderName::from_static("server-timing"), value);
    }
    response
}

/// A request with all of its body, if that is neither large nor slow.
async fn whole(request: Request) -> Result<Request, StatusCode> {
    let (parts, body) = request.into_parts();
    if parts.method != Method::POST {
        return Ok(Request::from_parts(parts, Body::empty()));
    }
    let announced = parts.headers.get(header::CONTENT_LENGTH).and_then(|n| n.to_str().ok()?.parse::<usize>().ok());
    if announced.is_some_and(|bytes| bytes > MOST) {
        return Err(StatusCode::PAYLOAD_TOO_LARGE);
    }
    match tokio::time::timeout(LONGEST, to_bytes(body, MOST)).await {
        Ok(Ok(bytes)) => Ok(Request::from_parts(parts, Body::from(bytes))),
        Ok(Err(_)) => Err(StatusCode::PAYLOAD_TOO_LARGE),
        Err(_) => Err(StatusCode::REQUEST_TIMEOUT),
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    fn asked(path: &str, headers: &[(&'static str, &str)]) -> Result<Guest, u16> {
        let door = Door::new(4711, "secret");
        let all =
            headers.iter().map(|(name, value)| (HeaderName::from_static(name), HeaderValue::from_str(value).unwrap()));
        let mut map = HeaderMap::new();
        for (name, value) in all {
            map.append(name, value);
        }
        door.lets_in(&map, path).map_err(|status| status.as_u16())
    }

    #[test]
    fn only_the_page_itself_comes_in() {
        let (host, token) = (("host", "127.0.0.1:4711"), ("x-quarterpin-token", "secret"));
        assert_eq!(asked("/api/state", &[host, token]), Ok(Guest::Known));
        assert_eq!(asked("/api/state", &[("host", "localhost:4711"), token]), Ok(Guest::Known));
        assert_eq!(asked("/api/state", &[host, token, ("origin", "http://127.0.0.1:4711")]), Ok(Guest::Known));
        assert_eq!(asked("/style.css", &[host]), Ok(Guest::Stranger));
        assert_eq!(asked("/api/state", &[host]), Err(401));
        assert_eq!(asked("/api/state", &[host, ("x-quarterpin-token", "secre")]), Err(401));
        for other in ["127.0.0.1", "127.0.0.1:4712", "evil.example:4711", "127.0.0.1:4711.evil.example", "[::1]:4711"] {
            assert_eq!(asked("/api/state", &[("host", other), token]), Err(403), "{other}");
            assert_eq!(asked("/", &[("host", other)]), Err(403), "{other}");
        }
        for other in ["http://evil.example", "https://127.0.0.1:4711", "null", "http://127.0.0.1:80", ""] {
            assert_eq!(asked("/api/state", &[host, token, ("origin", other)]), Err(403), "{other}");
        }
        assert_eq!(asked("/api/state", &[token]), Err(403), "no host");
        assert_eq!(asked("/api/state", &[host, host, token]), Err(403), "two hosts");
        assert_eq!(asked("/api/state", &[host, token, ("sec-fetch-site", "cross-site")]), Err(403));
        assert_eq!(asked("/api/state", &[host, token, ("sec-fetch-site", "same-origin")]), Ok(Guest::Known));
        assert_eq!(asked("/", &[host, ("sec-fetch-site", "none")]), Ok(Guest::Stranger));
    }
}
