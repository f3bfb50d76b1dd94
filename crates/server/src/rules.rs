//! The rules of the door: who may ask, and what the page may load.

use axum::Json;
use axum::extract::{Request, State};
use axum::http::{HeaderName, HeaderValue, StatusCode, header};
use axum::middleware::Next;
use axum::response::{IntoResponse, Response};

use crate::desk::{Desk, Refusal};
use std::sync::Arc;
use words::Message;

/// What the page may load: its own files, pictures it draws itself, and nothing written into the page.
pub const CONTENT_SECURITY_POLICY: &str = "default-src 'none'; script-src 'self'; style-src 'self'; font-src 'self'; img-src 'self' data: blob:; \
     connect-src 'self'; base-uri 'none'; form-action 'none'; frame-ancestors 'none'";

/// Refuses names that are not this machine's (a foreign page could point its own name at the loopback address), and puts the
/// page's rules on every answer.
pub async fn door(State(desk): State<Arc<dyn Desk>>, request: Request, next: Next) -> Response {
    let host = request
        .headers()
        .get(header::HOST)
        .and_then(|h| h.to_str().ok())
        .unwrap_or_default();
    let origin = request
        .headers()
        .get(header::ORIGIN)
        .and_then(|h| h.to_str().ok());
    let from_here = origin.is_none_or(|o| o.strip_prefix("http://").is_some_and(is_this_machine));
    let mut answer = if is_this_machine(host) && from_here {
        next.run(request).await
    } else {
        let refusal = Refusal::new("not-from-here", Message::new("server-not-from-here"));
        (StatusCode::FORBIDDEN, Json(refusal.said(desk.language()))).into_response()
    };
    let headers = answer.headers_mut();
    headers.insert(
        header::CONTENT_SECURITY_POLICY,
        HeaderValue::from_static(CONTENT_SECURITY_POLICY),
    );
    headers.insert(
        header::X_CONTENT_TYPE_OPTIONS,
        HeaderValue::from_static("nosniff"),
    );
    headers.insert(header::REFERRER_POLICY, HeaderValue::from_static("no-referrer"));
    headers.insert(
        HeaderName::from_static("cross-origin-resource-policy"),
        HeaderValue::from_static("same-origin"),
    );
    headers
        .entry(header::CACHE_CONTROL)
        .or_insert(HeaderValue::from_static("no-store"));
    answer
}

/// Whether a `host:port` is this machine by loopback address or name.
fn is_this_machine(host: &str) -> bool {
    let name = host.rsplit_once(':').map_or(host, |(name, port)| {
        if port.bytes().all(|b| b.is_ascii_digit()) {
            name
        } else {
            host
        }
    });
    matches!(name, "127.0.0.1" | "localhost" | "[::1]")
}

#[cfg(test)]
mod tests {
    use super::is_this_machine;

    #[test]
    fn loopback_names_only() {
        for name in ["127.0.0.1:8080", "localhost", "localhost:1", "[::1]:80", "[::1]"] {
            assert!(is_this_machine(name), "{name}");
        }
        for name in [
            "",
            "example.test",
            "127.0.0.1.example.test:80",
            "localhost.example.test",
            "10.0.0.1",
            "localhost:80x",
        ] {
            assert!(!is_this_machine(name), "{name}");
        }
    }
}
