//! How many points a picture is made of where drawing is slow: fewer, each shown larger. Without a graphics
//! card a picture takes as long as it has points, and slow pictures slow the drive.

/// No more points than these are drawn where it is slow: about as many as a computer without a graphics card
/// and with two cores draws 20 times a second.
const MOST: f64 = 400_000.0;

/// And no more than this part of them all.
const PART: f64 = 0.5;

/// Share of width and height that is drawn of so many device pixels, 0 to 1.
pub(crate) fn share(width: f64, height: f64) -> f64 {
    let all = width * height;
    if !all.is_finite() || all <= 0.0 {
        return 1.0;
    }
    let share = (MOST.min(PART * all) / all).sqrt();
    // Two decimals: a page that is a pixel wider is no reason to begin anew.
    (share * 100.0).floor() / 100.0
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn no_more_is_drawn_than_half_and_than_is_quick() {
        for (width, height) in [(640.0, 480.0), (1366.0, 768.0), (1920.0, 1080.0), (1170.0, 2532.0)]
        {
            let share = share(width, height);
            let drawn = width * height * share * share;
            assert!(drawn <= MOST && drawn <= PART * width * height, "{width} x {height}: {drawn}");
            assert!(drawn > 0.9 * MOST.min(PART * width * height), "{width} x {height}: {drawn}");
        }
    }

    #[test]
    fn a_stage_that_is_not_there_yet_is_drawn_as_it_is() {
        assert_eq!((share(0.0, 480.0), share(f64::NAN, 480.0)), (1.0, 1.0));
    }
}
