//! The HTTP layer over a small desk: what is carried, what is refused, and the rules on every answer.

#![expect(clippy::unwrap_used, reason = "a test fails where it cannot go on")]

mod small_desk;

use axum::body::{Body, to_bytes};
use axum::http::{Request, StatusCode, header};
use serde_json::{Value, json};
use small_desk::SmallDesk;
use std::sync::Arc;
use tower::ServiceExt;

fn router() -> axum::Router {
    server::router(Arc::new(SmallDesk::default()))
}

async fn ask(
    router: &axum::Router,
    method: &str,
    path: &str,
    body: Option<Value>,
) -> (StatusCode, axum::http::HeaderMap, Vec<u8>) {
    let mut request = Request::builder()
        .method(method)
        .uri(path)
        .header(header::HOST, "127.0.0.1:4000");
    if body.is_some() {
        request = request.header(header::CONTENT_TYPE, "application/json");
    }
    let body = body.map_or_else(Body::empty, |b| Body::from(b.to_string()));
    let answer = router.clone().oneshot(request.body(body).unwrap()).await.unwrap();
    let (parts, body) = answer.into_parts();
    (
        parts.status,
        parts.headers,
        to_bytes(body, 1 << 24).await.unwrap().to_vec(),
    )
}

fn read(bytes: &[u8]) -> Value {
    serde_json::from_slice(bytes).unwrap()
}

#[tokio::test]
async fn the_sheet_is_carried() {
    let (status, _, body) = ask(&router(), "GET", "/api/sheet", None).await;
    assert_eq!(status, StatusCode::OK);
    assert_eq!(read(&body)["sheet"]["name"], "Radio Sample");
}

#[tokio::test]
async fn every_answer_carries_the_rules_of_the_page() {
    for path in ["/", "/api/sheet", "/api/nothing", "/nothing"] {
        let (_, headers, _) = ask(&router(), "GET", path, None).await;
        let policy = headers[header::CONTENT_SECURITY_POLICY].to_str().unwrap();
        assert!(policy.starts_with("default-src 'none'"), "{path}: {policy}");
        assert!(
            !policy.contains("unsafe") && !policy.contains("http"),
            "{path}: {policy}"
        );
        assert_eq!(headers[header::X_CONTENT_TYPE_OPTIONS], "nosniff");
    }
}

#[tokio::test]
async fn foreign_names_are_refused() {
    for (host, origin) in [
        ("example.test", None),
        ("127.0.0.1:4000", Some("http://example.test")),
    ] {
        let mut request = Request::builder().uri("/api/sheet").header(header::HOST, host);
        if let Some(origin) = origin {
            request = request.header(header::ORIGIN, origin);
        }
        let answer = router()
            .oneshot(request.body(Body::empty()).unwrap())
            .await
            .unwrap();
        assert_eq!(answer.status(), StatusCode::FORBIDDEN, "{host} {origin:?}");
    }
}

#[tokio::test]
async fn edits_change_and_undo_takes_back() {
    let router = router();
    let edit = json!({ "edits": [{ "path": "items.TX1.set", "to": "200 W" }] });
    let (status, _, body) = ask(&router, "POST", "/api/edits", Some(edit)).await;
    assert_eq!(status, StatusCode::OK);
    let changed = read(&body);
    assert_eq!(changed["can_undo"], true);
    let (_, _, body) = ask(&router, "POST", "/api/undo", Some(json!({}))).await;
    assert_eq!(read(&body)["can_undo"], false);
    assert_ne!(read(&body)["token"], changed["token"]);
}

#[tokio::test]
async fn a_refusal_names_its_path_and_status() {
    let edit = json!({ "edits": [{ "path": "items.TX1.set", "to": "200" }] });
    let (status, _, body) = ask(&router(), "POST", "/api/edits", Some(edit)).await;
    assert_eq!(status, StatusCode::UNPROCESSABLE_ENTITY);
    assert_eq!(read(&body)["path"], "items.TX1.set");
    let (status, _, body) = ask(&router(), "GET", "/api/papers/none.pdf", None).await;
    assert_eq!(status, StatusCode::NOT_FOUND);
    assert_eq!(read(&body)["code"], "not-found");
}

#[tokio::test]
async fn writing_wants_json_so_that_no_foreign_form_can() {
    let request = Request::post("/api/edits")
        .header(header::HOST, "localhost")
        .body(Body::from("edits=1"))
        .unwrap();
    let answer = router().oneshot(request).await.unwrap();
    assert_eq!(answer.status(), StatusCode::UNSUPPORTED_MEDIA_TYPE);
}

#[tokio::test]
async fn a_file_changed_meanwhile_is_not_overwritten() {
    let router = router();
    let (_, _, body) = ask(&router, "GET", "/api/file", None).await;
    let file = read(&body);
    let wish = json!({ "text": "name = 'Mine'", "base": "an older digest" });
    let (status, _, body) = ask(&router, "PUT", "/api/file", Some(wish)).await;
    assert_eq!(
        (status, read(&body)["kind"].as_str()),
        (StatusCode::OK, Some("changed"))
    );
    assert_eq!(read(&body)["theirs"]["text"], file["text"]);
    let wish = json!({ "text": "nmae = 'Mine'", "base": file["digest"] });
    let (_, _, body) = ask(&router, "PUT", "/api/file", Some(wish)).await;
    assert_eq!(read(&body)["faults"][0]["line"], 1);
}

#[tokio::test]
async fn the_map_comes_as_lines_and_planes_of_one_piece() {
    let router = router();
    let (status, _, body) = ask(&router, "GET", "/api/field?heard=roof&places=50", None).await;
    assert_eq!(status, StatusCode::OK);
    let map = read(&body);
    let (width, height) = (
        map["legend"]["width"].as_u64().unwrap(),
        map["legend"]["height"].as_u64().unwrap(),
    );
    let address = format!("/{}", map["raster"].as_str().unwrap());
    let (status, _, planes) = ask(&router, "GET", &address, None).await;
    assert_eq!(status, StatusCode::OK);
    let cells = usize::try_from(width * height).unwrap();
    assert_eq!(planes.len(), cells * 4);
    // The desk's field falls by 1 dB a cell from 80 in the west: the first cell reads 8000 hundredths, the next 7900.
    assert_eq!(i16::from_le_bytes([planes[0], planes[1]]), 8000);
    assert_eq!(i16::from_le_bytes([planes[2], planes[3]]), 7900);
    assert!(planes[cells * 2..cells * 3].iter().all(|shade| *shade <= 12));
    // So 60 dBµV/m is reached in the middle of cell 20, at x = 20.5.
    let line = map["contours"][0]["rings"][0].as_array().unwrap();
    let xs = line.chunks(2).map(|p| p[0].as_f64().unwrap());
    assert!((xs.fold(0.0, f64::max) - 20.5).abs() < 0.02, "{line:?}");
    assert!(map["coast"][0].as_array().unwrap().len() >= 8);
}

#[tokio::test]
async fn a_paper_is_something_to_keep() {
    let (status, headers, body) = ask(&router(), "GET", "/api/papers/offer.pdf", None).await;
    assert_eq!((status, body.as_slice()), (StatusCode::OK, b"%PDF".as_slice()));
    assert_eq!(
        headers[header::CONTENT_DISPOSITION],
        "attachment; filename=\"offer.pdf\""
    );
}

#[tokio::test]
async fn the_hills_and_the_shares_of_all_cells_are_carried() {
    let router = router();
    let (status, _, body) = ask(&router, "GET", "/api/masts?erp=500%20W", None).await;
    assert_eq!(status, StatusCode::OK);
    let told = read(&body);
    let (width, height) = (told["width"].as_u64().unwrap(), told["height"].as_u64().unwrap());
    let address = format!("/{}", told["raster"].as_str().unwrap());
    let (status, _, shares) = ask(&router, "GET", &address, None).await;
    assert_eq!(status, StatusCode::OK);
    assert_eq!(shares.len() as u64, 2 * width * height);
    assert_eq!(i16::from_le_bytes([shares[0], shares[1]]), 10_000);
    assert_eq!(
        i16::from_le_bytes([shares[2], shares[3]]),
        server::masts::NO_SHARE
    );
    let (status, _, body) = ask(&router, "GET", "/api/masts?places=nowhere", None).await;
    assert_eq!(status, StatusCode::NOT_FOUND);
    assert_eq!(read(&body)["says"], "There is no place nowhere.");
}
