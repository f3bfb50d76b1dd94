//! The addresses, and what each asks the desk.

use crate::antenna::Antenna;
use crate::desk::{Desk, Event, Refusal, SaidRefusal};
use crate::drawn::Drawn;
use crate::file::{FileText, FileWish, Saved};
use crate::handover::Handover;
use crate::link::Hop;
use crate::map::{FieldAsk, Heard, Map};
use crate::masts::{MastAsk, Masts};
use crate::offers::Offers;
use crate::paper::Paper;
use crate::probe::{Probe, ProbeAsk};
use crate::studio::Studio;
use crate::view::{Change, View};
use crate::{page, rules};
use axum::extract::{DefaultBodyLimit, Path, Query, State};
use axum::http::{HeaderValue, StatusCode, Uri, header};
use axum::response::sse::{Event as Sent, KeepAlive, Sse};
use axum::response::{IntoResponse, Response};
use axum::{Json, Router, middleware};
use serde::Deserialize;
use station::Edit;
use std::convert::Infallible;
use std::sync::{Arc, Mutex};
use tokio_stream::wrappers::BroadcastStream;
use tokio_stream::{Stream, StreamExt};
use tower_http::compression::CompressionLayer;
use utoipa::{OpenApi, ToSchema};
use utoipa_axum::router::OpenApiRouter;
use utoipa_axum::routes;
use words::Message;

/// A station file may be large; this is far above any that a person writes.
const LARGEST_BODY_BYTES: usize = 16 << 20;

/// A question and the map that answered it.
type LastDrawn = Option<(FieldAsk, Arc<Drawn>)>;

#[derive(Clone)]
struct Counter {
    desk: Arc<dyn Desk>,
    /// The map drawn last, so that legend and planes are of one piece.
    drawn: Arc<Mutex<LastDrawn>>,
}

/// Edits of the station file.
#[derive(Debug, Deserialize, ToSchema)]
struct Edits {
    /// In order; all or none.
    #[schema(value_type = Vec<Object>)]
    edits: Vec<Edit>,
}

#[derive(OpenApi)]
#[openapi(
    info(
        title = "Stationwright",
        description = "What the page asks the program, on this machine only."
    ),
    components(schemas(Event, Heard))
)]
struct Description;

fn open_router() -> OpenApiRouter<Counter> {
    OpenApiRouter::with_openapi(Description::openapi())
        .routes(routes!(sheet))
        .routes(routes!(edits))
        .routes(routes!(draft))
        .routes(routes!(undo))
        .routes(routes!(redo))
        .routes(routes!(history))
        .routes(routes!(file, save))
        .routes(routes!(field))
        .routes(routes!(raster))
        .routes(routes!(probe))
        .routes(routes!(masts))
        .routes(routes!(masts_raster))
        .routes(routes!(papers, write_papers))
        .routes(routes!(paper))
        .routes(routes!(antennas))
        .routes(routes!(link))
        .routes(routes!(studio))
        .routes(routes!(handover))
        .routes(routes!(offers, work_out_offers))
        .routes(routes!(choose_offer))
        .routes(routes!(cancel))
        .routes(routes!(events))
}

/// The description of the API, from which the page's types are made.
pub fn openapi() -> utoipa::openapi::OpenApi {
    open_router().into_openapi()
}

/// Every address, with the page at the root.
pub fn router(desk: Arc<dyn Desk>) -> Router {
    let (router, description) = open_router().split_for_parts();
    router
        .route(
            "/api/openapi.json",
            axum::routing::get(move || async move { Json(description) }),
        )
        .fallback(page_file)
        .with_state(Counter {
            desk: desk.clone(),
            drawn: Arc::default(),
        })
        .layer(DefaultBodyLimit::max(LARGEST_BODY_BYTES))
        .layer(CompressionLayer::new())
        .layer(middleware::from_fn_with_state(desk, rules::door))
}

/// Whatever has no address of its own: a file of the page.
async fn page_file(State(counter): State<Counter>, uri: Uri) -> Response {
    page::file(counter.desk.as_ref(), &uri)
}

/// A refusal on its way out: its code decides the status.
struct Refused(SaidRefusal);

impl IntoResponse for Refused {
    fn into_response(self) -> Response {
        let status = match self.0.code.as_str() {
            "not-found" => StatusCode::NOT_FOUND,
            "changed" | "moot" => StatusCode::CONFLICT,
            "not-ready" => StatusCode::SERVICE_UNAVAILABLE,
            "failed" => StatusCode::INTERNAL_SERVER_ERROR,
            _ => StatusCode::UNPROCESSABLE_ENTITY,
        };
        (status, Json(self.0)).into_response()
    }
}

type Answer<T> = Result<Json<T>, Refused>;

/// Asks the desk off the threads that answer requests.
async fn ask<T: Send + 'static>(
    counter: Counter,
    question: impl FnOnce(&dyn Desk) -> Result<T, Refusal> + Send + 'static,
) -> Result<T, Refused> {
    let desk = counter.desk.clone();
    let answer = tokio::task::spawn_blocking(move || question(counter.desk.as_ref())).await;
    answer
        .unwrap_or_else(|_| Err(Refusal::new("failed", Message::new("server-fault"))))
        .map_err(|refusal| Refused(refusal.said(desk.language())))
}

/// The station as it stands.
#[utoipa::path(get, path = "/api/sheet", responses((status = OK, body = View), (status = "default", body = SaidRefusal)))]
async fn sheet(State(counter): State<Counter>) -> Answer<View> {
    ask(counter, |desk| desk.view()).await.map(Json)
}

/// Applies edits as one change.
#[utoipa::path(post, path = "/api/edits", request_body = Edits, responses((status = OK, body = View), (status = "default", body = SaidRefusal)))]
async fn edits(State(counter): State<Counter>, Json(Edits { edits }): Json<Edits>) -> Answer<View> {
    ask(counter, move |desk| desk.apply(&edits)).await.map(Json)
}

/// What edits would give, without keeping them.
#[utoipa::path(post, path = "/api/draft", request_body = Edits, responses((status = OK, body = View), (status = "default", body = SaidRefusal)))]
async fn draft(State(counter): State<Counter>, Json(Edits { edits }): Json<Edits>) -> Answer<View> {
    ask(counter, move |desk| desk.draft(&edits)).await.map(Json)
}

/// Takes the last change back.
#[utoipa::path(post, path = "/api/undo", responses((status = OK, body = View), (status = "default", body = SaidRefusal)))]
async fn undo(State(counter): State<Counter>) -> Answer<View> {
    ask(counter, |desk| desk.undo()).await.map(Json)
}

/// Does the change taken back again.
#[utoipa::path(post, path = "/api/redo", responses((status = OK, body = View), (status = "default", body = SaidRefusal)))]
async fn redo(State(counter): State<Counter>) -> Answer<View> {
    ask(counter, |desk| desk.redo()).await.map(Json)
}

/// Every change of this sitting, newest first.
#[utoipa::path(get, path = "/api/history", responses((status = OK, body = Vec<Change>), (status = "default", body = SaidRefusal)))]
async fn history(State(counter): State<Counter>) -> Answer<Vec<Change>> {
    ask(counter, |desk| Ok(desk.history())).await.map(Json)
}

/// The station file's text.
#[utoipa::path(get, path = "/api/file", responses((status = OK, body = FileText), (status = "default", body = SaidRefusal)))]
async fn file(State(counter): State<Counter>) -> Answer<FileText> {
    ask(counter, |desk| desk.file()).await.map(Json)
}

/// Writes a whole text, unless the file was changed meanwhile.
#[utoipa::path(put, path = "/api/file", request_body = FileWish, responses((status = OK, body = Saved), (status = "default", body = SaidRefusal)))]
async fn save(State(counter): State<Counter>, Json(wish): Json<FileWish>) -> Answer<Saved> {
    ask(counter, move |desk| desk.save(&wish.text, &wish.base))
        .await
        .map(Json)
}

/// The map last drawn for a question, or a new one where the desk's has changed.
async fn drawn(counter: Counter, wish: FieldAsk) -> Result<Arc<Drawn>, Refused> {
    let kept = counter.drawn.clone();
    ask(counter, move |desk| {
        let picture = desk.field(&wish)?;
        let mut kept = kept.lock().unwrap_or_else(std::sync::PoisonError::into_inner);
        if let Some((asked, drawn)) = kept.as_ref()
            && *asked == wish
            && drawn.is_of(&picture)
        {
            return Ok(drawn.clone());
        }
        let drawn = Arc::new(Drawn::new(picture, &wish)?);
        *kept = Some((wish, drawn.clone()));
        Ok(drawn)
    })
    .await
}

/// The map's legend, coast and contours.
#[utoipa::path(get, path = "/api/field", params(FieldAsk), responses((status = OK, body = Map), (status = "default", body = SaidRefusal)))]
async fn field(State(counter): State<Counter>, Query(wish): Query<FieldAsk>) -> Result<Response, Refused> {
    Ok(Json(&drawn(counter, wish).await?.map).into_response())
}

/// The map's planes, row by row from the north-west corner: field as little-endian 16-bit hundredths of the unit (−32768 where
/// there is none), then one byte of relief for each cell (0 to 12, 6 for flat), then one byte of land (1) or water (0).
#[utoipa::path(get, path = "/api/field/raster", params(FieldAsk), responses((status = OK, content_type = "application/octet-stream", body = Vec<u8>), (status = "default", body = SaidRefusal)))]
async fn raster(State(counter): State<Counter>, Query(wish): Query<FieldAsk>) -> Result<Response, Refused> {
    let drawn = drawn(counter, wish).await?;
    Ok((
        [(header::CONTENT_TYPE, "application/octet-stream")],
        drawn.planes.clone(),
    )
        .into_response())
}

/// Where the mast should stand: the best hills for the places to be served.
#[utoipa::path(get, path = "/api/masts", params(MastAsk), responses((status = OK, body = Masts), (status = "default", body = SaidRefusal)))]
async fn masts(State(counter): State<Counter>, Query(wish): Query<MastAsk>) -> Answer<Masts> {
    ask(counter, move |desk| Ok(desk.masts(&wish)?.masts.clone()))
        .await
        .map(Json)
}

/// The share of all people served from each cell, row by row from the north-west corner: little-endian 16-bit hundredths of a
/// per cent (−32768 where no mast can stand).
#[utoipa::path(get, path = "/api/masts/raster", params(MastAsk), responses((status = OK, content_type = "application/octet-stream", body = Vec<u8>), (status = "default", body = SaidRefusal)))]
async fn masts_raster(
    State(counter): State<Counter>,
    Query(wish): Query<MastAsk>,
) -> Result<Response, Refused> {
    let picture = ask(counter, move |desk| desk.masts(&wish)).await?;
    let bytes: Vec<u8> = picture
        .share_hundredths
        .iter()
        .flat_map(|share| share.to_le_bytes())
        .collect();
    Ok(([(header::CONTENT_TYPE, "application/octet-stream")], bytes).into_response())
}

/// The field at a place, with each loss term.
#[utoipa::path(get, path = "/api/probe", params(ProbeAsk), responses((status = OK, body = Probe), (status = "default", body = SaidRefusal)))]
async fn probe(State(counter): State<Counter>, Query(wish): Query<ProbeAsk>) -> Answer<Probe> {
    ask(counter, move |desk| desk.probe(&wish)).await.map(Json)
}

/// The papers and their state.
#[utoipa::path(get, path = "/api/papers", responses((status = OK, body = Vec<Paper>), (status = "default", body = SaidRefusal)))]
async fn papers(State(counter): State<Counter>) -> Answer<Vec<Paper>> {
    ask(counter, |desk| desk.papers()).await.map(Json)
}

/// Writes the papers anew.
#[utoipa::path(post, path = "/api/papers", responses((status = NO_CONTENT), (status = "default", body = SaidRefusal)))]
async fn write_papers(State(counter): State<Counter>) -> Result<StatusCode, Refused> {
    ask(counter, |desk| desk.write_papers())
        .await
        .map(|()| StatusCode::NO_CONTENT)
}

/// One paper, to keep.
#[utoipa::path(get, path = "/api/papers/{name}", params(("name" = String, Path,)), responses((status = OK, content_type = "application/octet-stream", body = Vec<u8>), (status = "default", body = SaidRefusal)))]
async fn paper(State(counter): State<Counter>, Path(name): Path<String>) -> Result<Response, Refused> {
    let desk = counter.desk.clone();
    let paper = ask(counter, move |desk| desk.paper(&name)).await?;
    let plain: String = paper
        .name
        .chars()
        .map(|c| {
            if c.is_ascii_alphanumeric() || ".-_ ".contains(c) {
                c
            } else {
                '_'
            }
        })
        .collect();
    let unlike = |_| {
        let refusal = Refusal::new("failed", Message::new("server-paper-header"));
        Refused(refusal.said(desk.language()))
    };
    let kind = HeaderValue::from_str(&paper.media_type).map_err(unlike)?;
    let named = HeaderValue::from_str(&format!("attachment; filename=\"{plain}\"")).map_err(unlike)?;
    Ok((
        [(header::CONTENT_TYPE, kind), (header::CONTENT_DISPOSITION, named)],
        paper.bytes,
    )
        .into_response())
}

/// Every antenna as it radiates and is fed.
#[utoipa::path(get, path = "/api/antennas", responses((status = OK, body = Vec<Antenna>), (status = "default", body = SaidRefusal)))]
async fn antennas(State(counter): State<Counter>) -> Answer<Vec<Antenna>> {
    ask(counter, |desk| desk.antennas()).await.map(Json)
}

/// The programme's way to the transmitter, hop by hop.
#[utoipa::path(get, path = "/api/link", responses((status = OK, body = Vec<Hop>), (status = "default", body = SaidRefusal)))]
async fn link(State(counter): State<Counter>) -> Answer<Vec<Hop>> {
    ask(counter, |desk| desk.link()).await.map(Json)
}

/// The studio's signals.
#[utoipa::path(get, path = "/api/studio", responses((status = OK, body = Studio), (status = "default", body = SaidRefusal)))]
async fn studio(State(counter): State<Counter>) -> Answer<Studio> {
    ask(counter, |desk| desk.studio()).await.map(Json)
}

/// How the antennas are rigged and what is measured on the day.
#[utoipa::path(get, path = "/api/handover", responses((status = OK, body = Handover), (status = "default", body = SaidRefusal)))]
async fn handover(State(counter): State<Counter>) -> Answer<Handover> {
    ask(counter, |desk| desk.handover()).await.map(Json)
}

/// The designs worked out for the brief.
#[utoipa::path(get, path = "/api/offers", responses((status = OK, body = Offers), (status = "default", body = SaidRefusal)))]
async fn offers(State(counter): State<Counter>) -> Answer<Offers> {
    ask(counter, |desk| Ok(desk.offers())).await.map(Json)
}

/// Begins to work out designs for the brief.
#[utoipa::path(post, path = "/api/offers", responses((status = NO_CONTENT), (status = "default", body = SaidRefusal)))]
async fn work_out_offers(State(counter): State<Counter>) -> Result<StatusCode, Refused> {
    ask(counter, |desk| desk.work_out_offers())
        .await
        .map(|()| StatusCode::NO_CONTENT)
}

/// Makes the station one of the designs worked out.
#[utoipa::path(post, path = "/api/offers/{id}", params(("id" = String, Path,)), responses((status = OK, body = View), (status = "default", body = SaidRefusal)))]
async fn choose_offer(State(counter): State<Counter>, Path(id): Path<String>) -> Answer<View> {
    ask(counter, move |desk| desk.choose_offer(&id)).await.map(Json)
}

/// Stops the longer work that is going on.
#[utoipa::path(post, path = "/api/cancel", responses((status = NO_CONTENT)))]
async fn cancel(State(counter): State<Counter>) -> Result<StatusCode, Refused> {
    ask(counter, |desk| {
        desk.cancel();
        Ok(StatusCode::NO_CONTENT)
    })
    .await
}

/// What happens, as server-sent events; each holds one `Event` as JSON.
#[utoipa::path(get, path = "/api/events", responses((status = OK, content_type = "text/event-stream", body = String)))]
async fn events(State(counter): State<Counter>) -> Sse<impl Stream<Item = Result<Sent, Infallible>>> {
    // A listener that fell behind has missed something: whatever it was, the next event makes it ask anew.
    let stream = BroadcastStream::new(counter.desk.events())
        .filter_map(|event| event.ok().and_then(|e| Sent::default().json_data(e).ok()).map(Ok));
    Sse::new(stream).keep_alive(KeepAlive::default())
}
