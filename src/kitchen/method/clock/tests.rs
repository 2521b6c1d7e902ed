use super::*;
use pretty_assertions::assert_eq;

#[test]
fn every_way_of_writing_a_time_is_read_and_both_ends_of_a_range_are_kept() {
    for (text, low, high) in [
        ("for 30 minutes", 30.0, 30.0),
        ("1 hour 15 minutes", 75.0, 75.0),
        ("an hour and a half", 90.0, 90.0),
        ("1½ hours", 90.0, 90.0),
        ("half an hour", 30.0, 30.0),
        ("an hour and a quarter", 75.0, 75.0),
        ("another 5 minutes", 5.0, 5.0),
        ("another hour", 60.0, 60.0),
        ("a further hour", 60.0, 60.0),
        ("2 minutes a side", 4.0, 4.0),
        ("3 minutes on each side", 6.0, 6.0),
        ("5 minutes per batch", 5.0, 5.0),
        ("45–50 minutes", 45.0, 50.0),
        ("eight to 10 hours", 480.0, 600.0),
        ("1 ¼-1 ½ hours", 75.0, 90.0),
        ("45 mins–1 hr", 45.0, 60.0),
        ("1 to 1 1/4 hours", 60.0, 75.0),
        ("2hrs 30mins", 150.0, 150.0),
        ("1h30", 90.0, 90.0),
        ("twenty-five minutes", 25.0, 25.0),
        ("ten to fifteen minutes", 10.0, 15.0),
        ("a minute or two", 1.0, 2.0),
        ("three quarters of an hour", 45.0, 45.0),
        ("10 minutes or until golden", 10.0, 10.0),
        ("5 more minutes", 5.0, 5.0),
        ("overnight", 480.0, 480.0),
        ("1 hr 20 mins-1 hr 30 mins", 80.0, 90.0),
        ("1:30 hours", 90.0, 90.0),
        ("1 hr 30, stirring", 90.0, 90.0),
        ("3 min/side", 6.0, 6.0),
        ("for a final 10-15 mins", 10.0, 15.0),
        ("a good half-hour", 30.0, 30.0),
        ("no more than 5 minutes", 5.0, 5.0),
        ("3 minutes on the first side and 2 on the other", 5.0, 5.0),
        ("stand 10 minutes before serving", 10.0, 10.0),
        ("cook 10 minutes before adding the peas", 10.0, 10.0),
    ] {
        let w = Words::of(text);
        let found = times(&w, 0, w.len());
        assert_eq!(found.iter().map(|time| (time.low, time.high)).collect::<Vec<_>>(), [(low, high)], "{text}");
    }
}

#[test]
fn a_mark_in_time_is_no_wait() {
    for text in [
        "after 10 minutes",
        "basting every 5 minutes",
        "for the last 10 minutes",
        "30 minutes before serving",
        "keeps 3 days",
        "out of the fridge an hour beforehand",
        "refrigerate for up to 3 days",
        "reserve for up to 2 days",
        "chop 30 minutes before serving",
        "2 x 400 g",
        "1-inch chunks",
    ] {
        let w = Words::of(text);
        assert_eq!(times(&w, 0, w.len()), [], "{text}");
    }
}

#[test]
fn a_number_without_its_unit_has_that_of_the_time_before_it() {
    let w = Words::of("Fry for 5 minutes, turn and cook for another 4.");
    let found = times(&w, 6, w.len());
    assert_eq!(found.iter().map(|time| time.high).collect::<Vec<_>>(), [4.0]);
    let w = Words::of("Makes enough for 4.");
    assert_eq!(times(&w, 0, w.len()), []);
}
