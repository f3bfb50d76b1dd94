//! The page, embedded.

use crate::desk::Desk;
use axum::http::{StatusCode, Uri, header};
use axum::response::{IntoResponse, Response};
use rust_embed::RustEmbed;
use words::{Message, said};

#[derive(RustEmbed)]
#[folder = "$OUT_DIR/page"]
struct Page;

/// A file of the page; the page itself at the root.
pub fn file(desk: &dyn Desk, uri: &Uri) -> Response {
    let path = match uri.path().trim_start_matches('/') {
        "" => "index.html",
        path => path,
    };
    let Some(file) = Page::get(path) else {
        let says = said(&Message::new("server-nothing-here"), desk.language());
        return (StatusCode::NOT_FOUND, says + "\n").into_response();
    };
    // Names below assets/ carry a digest of what is in them.
    let keep = if path.starts_with("assets/") {
        "public, max-age=31536000, immutable"
    } else {
        "no-cache"
    };
    (
        [
            (header::CONTENT_TYPE, media_type(path)),
            (header::CACHE_CONTROL, keep),
        ],
        file.data,
    )
        .into_response()
}

/// Media type by the end of the name: the few kinds the page is made of.
fn media_type(path: &str) -> &'static str {
    match path.rsplit_once('.').map_or("", |(_, end)| end) {
        "html" => "text/html; charset=utf-8",
        "js" => "text/javascript; charset=utf-8",
        "css" => "text/css; charset=utf-8",
        "svg" => "image/svg+xml",
        "woff2" => "font/woff2",
        _ => "application/octet-stream",
    }
}
