//! Much work of one kind: done on all cores, with a bar that shows how far it is.

use indicatif::{ProgressBar, ProgressStyle};
use rayon::prelude::*;

/// Does the work for each item and returns what came out, in the order of the items; the first
/// trouble ends it. `what` are the items, as the bar calls them.
///
/// # Errors
/// What the work says of an item.
pub(crate) fn all<T, R, E>(
    items: &[T],
    what: &str,
    work: impl Fn(&T) -> Result<R, E> + Sync,
) -> Result<Vec<R>, E>
where
    T: Sync,
    R: Send,
    E: Send,
{
    let bar = ProgressBar::new(items.len() as u64);
    let template = format!("{{bar:40}} {{pos}} of {{len}} {what}, {{eta}} left");
    if let Ok(style) = ProgressStyle::with_template(&template) {
        bar.set_style(style);
    }
    let one = |item| {
        let done = work(item);
        bar.inc(1);
        done
    };
    let done = items.par_iter().map(one).collect();
    bar.finish_and_clear();
    done
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn results_come_in_order_and_trouble_comes_out() {
        let items: Vec<u32> = (0..1000).collect();
        let twice = all(&items, "numbers", |n| Ok::<u32, ()>(2 * n));
        assert_eq!(twice, Ok(items.iter().map(|n| 2 * n).collect()));
        assert_eq!(all(&items, "numbers", |n| if *n == 500 { Err(*n) } else { Ok(()) }), Err(500));
    }
}
