//! The bookmarks of a PDF: shops, days and sessions by which a page is found on a screen.

use lopdf::{Dictionary, Document, Object, ObjectId, text_string};

use super::page::Page;

/// Adds an outline (ISO 32000-1, 12.3.3) with every bookmark of the pages, in their order; none where there are none.
pub fn add_outline(document: &mut Document, pages: &[Page]) {
    let places: Vec<ObjectId> = document.get_pages().into_values().collect();
    let marks: Vec<(&str, ObjectId, f32)> = pages
        .iter()
        .zip(&places)
        .flat_map(|(page, place)| page.bookmarks.iter().map(move |mark| (mark.title.as_str(), *place, page.height - mark.y)))
        .collect();
    if marks.is_empty() {
        return;
    }
    let outline = document.new_object_id();
    let items: Vec<ObjectId> = marks.iter().map(|_| document.new_object_id()).collect();
    for (index, (title, page, top)) in marks.iter().enumerate() {
        let mut item = Dictionary::new();
        item.set("Title", text_string(title));
        item.set("Parent", outline);
        item.set("Dest", vec![Object::Reference(*page), Object::Name(b"XYZ".to_vec()), Object::Null, Object::Real(*top), Object::Null]);
        let neighbours = [("Prev", index.checked_sub(1)), ("Next", index.checked_add(1))];
        for (key, neighbour) in neighbours {
            if let Some(id) = neighbour.and_then(|at| items.get(at)) {
                item.set(key, *id);
            }
        }
        document.objects.insert(items[index], Object::Dictionary(item));
    }
    let mut root = Dictionary::new();
    root.set("Type", Object::Name(b"Outlines".to_vec()));
    root.set("First", items[0]);
    root.set("Last", items[items.len() - 1]);
    root.set("Count", items.len() as i64);
    document.objects.insert(outline, Object::Dictionary(root));
    if let Ok(catalog) = document.catalog_mut() {
        catalog.set("Outlines", outline);
    }
}
