//! The bookmarks of a PDF, by which a page is found on a screen, and the links from one page to another.

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

/// Adds a link annotation (ISO 32000-1, 12.5.6.5) for every link of the pages, without a frame.
pub fn add_links(document: &mut Document, pages: &[Page]) {
    let places: Vec<ObjectId> = document.get_pages().into_values().collect();
    for (page, place) in pages.iter().zip(&places).filter(|(page, _)| !page.links.is_empty()) {
        let mut notes: Vec<Object> = Vec::new();
        for link in &page.links {
            let (Some(target), Some(onto)) = (places.get(link.to.0), pages.get(link.to.0)) else { continue };
            let top = page.height - link.y;
            let corners = [link.x, top - link.height, link.x + link.width, top];
            let mut note = Dictionary::new();
            note.set("Type", Object::Name(b"Annot".to_vec()));
            note.set("Subtype", Object::Name(b"Link".to_vec()));
            note.set("Rect", corners.map(Object::Real).to_vec());
            note.set("Border", vec![Object::Integer(0); 3]);
            let height = Object::Real(onto.height - link.to.1);
            note.set("Dest", vec![Object::Reference(*target), Object::Name(b"XYZ".to_vec()), Object::Null, height, Object::Null]);
            notes.push(Object::Reference(document.add_object(note)));
        }
        if let Ok(dictionary) = document.get_object_mut(*place).and_then(Object::as_dict_mut) {
            dictionary.set("Annots", notes);
        }
    }
}
