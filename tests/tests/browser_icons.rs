//! The mark: its pictures are drawn from its drawings, and a browser finds what it takes to install the yard.

// What a test cannot do without ends the test.
#![allow(clippy::unwrap_used)]

use std::fs;

use coneyard_tests::browser::{Size, Yard, project_folder};
use serde_json::{Value, json};

/// A picture, the drawing that it is made of, and its side, pixels.
const PICTURES: [(&str, &str, u32); 4] = [
    ("web/icon-192.png", "web/icon.svg", 192),
    ("web/icon-512.png", "web/icon.svg", 512),
    ("web/icon-maskable-192.png", "assets/icon-maskable.svg", 192),
    ("web/icon-maskable-512.png", "assets/icon-maskable.svg", 512),
];

/// Draws both; how far they are apart on average, 0 to 255, and the drawing as a picture's bytes. (The edges
/// hang on how a browser draws.)
const DRAW: &str = "
    const [picture, drawing, side] = args;
    const pixels = async (parts, type) => {
        const image = new Image(side, side);
        image.src = URL.createObjectURL(new Blob(parts, { type }));
        await image.decode();
        const canvas = document.createElement('canvas');
        canvas.width = canvas.height = side;
        const pen = canvas.getContext('2d');
        pen.drawImage(image, 0, 0, side, side);
        return { canvas, data: pen.getImageData(0, 0, side, side).data, own: image.naturalWidth };
    };
    const drawn = await pixels([drawing], 'image/svg+xml');
    const blob = await new Promise((done) => drawn.canvas.toBlob(done, 'image/png'));
    const bytes = [...new Uint8Array(await blob.arrayBuffer())];
    if (!picture) return { bytes };
    const kept = await pixels([Uint8Array.from(picture)], 'image/png');
    const sum = drawn.data.reduce((sum, v, i) => sum + Math.abs(v - kept.data[i]), 0);
    return { bytes, apart: sum / drawn.data.length, own: kept.own };";

/// `CONEYARD_RENEW_ICONS=1` draws them anew.
#[tokio::test(flavor = "multi_thread")]
#[ignore = "needs Chromium and the built site: ./check runs it"]
async fn the_pictures_of_the_mark_are_its_drawings() {
    let yard = Yard::start(Size::SMALL, "en").await;
    // A page without a policy of what it may draw.
    yard.client.goto("about:blank").await.unwrap();
    let renew = std::env::var_os("CONEYARD_RENEW_ICONS").is_some();
    for (picture, drawing, side) in PICTURES {
        let path = project_folder().join(picture);
        let drawing = fs::read_to_string(project_folder().join(drawing)).unwrap();
        let kept = if renew { Value::Null } else { json!(fs::read(&path).unwrap()) };
        let drawn = yard.script(DRAW, vec![kept, json!(drawing), json!(side)]).await.unwrap();
        if renew {
            let bytes: Vec<u8> = serde_json::from_value(drawn["bytes"].clone()).unwrap();
            fs::write(&path, bytes).unwrap();
            continue;
        }
        assert_eq!(drawn["own"], json!(side), "{picture}");
        let apart = drawn["apart"].as_f64().unwrap();
        assert!(apart < 1.0, "{picture} is not its drawing: {apart} of 255 apart; draw it anew");
    }
}

/// What Chromium asks of a page before it offers to install it.
#[tokio::test(flavor = "multi_thread")]
#[ignore = "needs Chromium and the built site: ./check runs it"]
async fn the_yard_can_be_installed() {
    let yard = Yard::start(Size::SMALL, "en").await;
    yard.open("#/").await;
    yard.wait_until("document.querySelector('main')").await;
    let manifest = yard.devtools("Page.getAppManifest", json!({})).await;
    assert_eq!(manifest["errors"], json!([]), "{manifest}");
    assert!(manifest["url"].as_str().unwrap().ends_with("/manifest.webmanifest"), "{manifest}");
    let of: Value = serde_json::from_str(manifest["data"].as_str().unwrap()).unwrap();
    let icons = of["icons"].as_array().unwrap();
    for (purpose, sizes) in [("any", "192x192"), ("any", "512x512"), ("maskable", "512x512")] {
        let icon = icons.iter().find(|i| i["purpose"] == purpose && i["sizes"] == sizes).unwrap();
        let body =
            "const answer = await fetch(args[0]); return answer.headers.get('content-type');";
        let kind = yard.script(body, vec![icon["src"].clone()]).await.unwrap();
        assert_eq!(kind, json!("image/png"), "{icon}");
    }
    let errors = yard.devtools("Page.getInstallabilityErrors", json!({})).await;
    let errors: Vec<&str> = errors["installabilityErrors"]
        .as_array()
        .unwrap()
        .iter()
        .filter_map(|e| e["errorId"].as_str())
        // A browser without a window is never asked to install anything.
        .filter(|e| !matches!(*e, "in-incognito" | "no-acceptable-icon-shown"))
        .collect();
    assert_eq!(errors, Vec::<&str>::new());
}
