//! Whether the items of a test go together: Cronbach's alpha with Feldt's interval, and how each item goes with the
//! rest. Where every item is right or wrong alpha is Kuder and Richardson's formula 20.
//!
//! A class that was trained well varies little, so alpha sinks though the test is as good as before.

use statrs::function::beta::inv_beta_reg;

use super::detection::Estimate;
use crate::score::certainty::Z_95;

/// What people scored: a row for each, as long as there are items.
pub type Rows = [Vec<f64>];

/// Variance, by the number of values.
fn variance(values: &[f64]) -> f64 {
    let n = values.len() as f64;
    let mean = values.iter().sum::<f64>() / n;
    values.iter().map(|v| (v - mean) * (v - mean)).sum::<f64>() / n
}

fn column(rows: &Rows, item: usize) -> Vec<f64> {
    rows.iter().filter_map(|row| row.get(item).copied()).collect()
}

/// Cronbach's alpha; None of fewer than two people or items, and where everybody scored the same in all.
///
/// L. J. Cronbach, Psychometrika 16, 1951, 297-334.
pub fn alpha(rows: &Rows) -> Option<f64> {
    let items = rows.first()?.len();
    if rows.len() < 2 || items < 2 || rows.iter().any(|row| row.len() != items) {
        return None;
    }
    let totals: Vec<f64> = rows.iter().map(|row| row.iter().sum()).collect();
    let of_totals = variance(&totals);
    let of_items: f64 = (0..items).map(|i| variance(&column(rows, i))).sum();
    let k = items as f64;
    (of_totals > 0.0).then(|| k / (k - 1.0) * (1.0 - of_items / of_totals))
}

/// Alpha with its 95 % interval; None where there is no alpha.
///
/// L. S. Feldt, Psychometrika 30, 1965, 357-370.
pub fn with_interval(rows: &Rows) -> Option<Estimate> {
    let value = alpha(rows)?;
    let (n, k) = (rows.len() as f64, rows.first()?.len() as f64);
    let (low, high) = feldt(value, n, k);
    Some(Estimate { value, low, high })
}

/// Ends of the 95 % interval of an alpha of so many people and items.
fn feldt(alpha: f64, people: f64, items: f64) -> (f64, f64) {
    let (over, under) = (people - 1.0, (people - 1.0) * (items - 1.0));
    let end = |p: f64| 1.0 - (1.0 - alpha) * quantile_of_f(p, over, under);
    (end(0.975), end(0.025))
}

/// The quantile of Fisher's F distribution with these degrees of freedom.
fn quantile_of_f(p: f64, over: f64, under: f64) -> f64 {
    let x = inv_beta_reg(over / 2.0, under / 2.0, p);
    under * x / (over * (1.0 - x))
}

/// Alpha of the items but this one; None where there is none.
pub fn alpha_without(rows: &Rows, item: usize) -> Option<f64> {
    let others: Vec<Vec<f64>> = rows
        .iter()
        .map(|row| row.iter().enumerate().filter(|(i, _)| *i != item).map(|(_, v)| *v).collect())
        .collect();
    alpha(&others)
}

/// How an item goes with the sum of the others, as a correlation with its 95 % interval (Fisher's z); None where
/// nobody differs in the one or in the other, and of fewer than four people.
pub fn with_the_rest(rows: &Rows, item: usize) -> Option<Estimate> {
    let own = column(rows, item);
    let rest: Vec<f64> =
        rows.iter().zip(&own).map(|(row, own)| row.iter().sum::<f64>() - own).collect();
    let n = rows.len() as f64;
    if own.len() != rows.len() || rows.len() < 4 {
        return None;
    }
    let (mean_own, mean_rest) = (own.iter().sum::<f64>() / n, rest.iter().sum::<f64>() / n);
    let both = own.iter().zip(&rest).map(|(a, b)| (a - mean_own) * (b - mean_rest));
    let spread = (variance(&own) * variance(&rest)).sqrt();
    // Sums of shares round: what differs by less does not differ.
    if spread < 1e-12 {
        return None;
    }
    let value = (both.sum::<f64>() / n / spread).clamp(-1.0, 1.0);
    let half = Z_95 / (n - 3.0).sqrt();
    let end = |by: f64| libm::tanh(libm::atanh(value) + by);
    Some(Estimate { value, low: end(-half), high: end(half) })
}

#[cfg(test)]
mod tests {
    use super::*;

    fn rows(text: &str) -> Vec<Vec<f64>> {
        let row = |line: &str| line.bytes().map(|b| f64::from(b - b'0')).collect();
        text.split_whitespace().map(row).collect()
    }

    /// Ten people and ten items, right or wrong: K. Wuensch, East Carolina University, KR20.txt, where the shares
    /// and variances are printed.
    const QUIZ: &str = "1111110110 1011011101 1111011001 0010001000 0000010010 1110111111 \
                        1101110111 1111111101 0101111101 1101101110";
    /// The nine complete rows of pingouin's data set `cronbach_wide_missing`.
    const LISTWISE: &str = "11111111111 11111111010 11101101100 11111000100 11110010000 \
                            11111000000 01011000010 11100000000 10010000000";
    /// pingouin's data set `cronbach_alpha`, fifteen people and ten items from 1 to 7.
    const SCALE: &str = "3224145143 5546351255 7535564336 2343322266 6556544467 1223425235 \
                         4335352124 2544372246 6255516523 5246435317 4135253234 4423253423 \
                         5556233244 6555422146 4435531323";

    fn near(is: f64, should: f64, within: f64) {
        assert!((is - should).abs() < within, "{is} should be {should}");
    }

    /// pingouin 0.7.0, `cronbach_alpha`.
    #[test]
    fn alpha_is_that_of_a_library() {
        near(alpha(&rows(QUIZ)).unwrap(), 0.6963470319634703, 1e-12);
        near(alpha(&rows(LISTWISE)).unwrap(), 0.8016949152542373, 1e-12);
        near(alpha(&rows(SCALE)).unwrap(), 0.5917188485995826, 1e-12);
    }

    /// As printed: variances by the number of people, not one less.
    #[test]
    fn the_printed_quiz_has_its_printed_variances() {
        let rows = rows(QUIZ);
        let of_items = [0.21, 0.21, 0.24, 0.21, 0.24, 0.16, 0.21, 0.21, 0.25, 0.24];
        for (i, should) in of_items.into_iter().enumerate() {
            near(variance(&column(&rows, i)), should, 1e-12);
        }
        let totals: Vec<f64> = rows.iter().map(|r| r.iter().sum()).collect();
        near(variance(&totals), 5.84, 1e-12);
        near(alpha(&rows).unwrap(), 10.0 / 9.0 * (1.0 - 2.18 / 5.84), 1e-12);
    }

    /// pingouin 0.7.0 prints (0.309, 0.911) and (0.195, 0.840) of the first two; more digits, and the rest, from
    /// scipy 1.17.1 `stats.f.ppf`. Of the complete rows it prints (0.581, 0.933), the interval of all twelve rows
    /// though nine are left: with nine it is wider.
    #[test]
    fn feldts_interval_is_that_of_a_library() {
        for (alpha, people, items, low, high) in [
            (0.6963470319634703, 10.0, 10.0, 0.309070428899089, 0.9112037121627642),
            (0.5917188485995826, 15.0, 10.0, 0.19492139066312175, 0.8398208146275432),
            (0.8016949152542373, 9.0, 11.0, 0.5330031999132735, 0.9472079673390164),
            (0.8016949152542373, 12.0, 11.0, 0.5811283040171431, 0.9327678165099008),
            (0.85, 30.0, 8.0, 0.7525917274837249, 0.9191218370523426),
            (0.3, 120.0, 20.0, 0.10461752940325175, 0.4695232716630573),
            (-0.4, 40.0, 5.0, -1.2265247884686823, 0.18417254504515246),
        ] {
            let is = feldt(alpha, people, items);
            near(is.0, low, 1e-9);
            near(is.1, high, 1e-9);
        }
        let is = with_interval(&rows(QUIZ)).unwrap();
        assert!((is.low - 0.309).abs() < 0.0005 && (is.high - 0.911).abs() < 0.0005, "{is:?}");
    }

    /// scipy 1.17.1, `stats.f.ppf`.
    #[test]
    fn quantiles_of_f_are_those_of_a_library() {
        for (over, under, low, high) in [
            (1.0, 1.0, 0.001543712508674131, 647.7890114778442),
            (9.0, 81.0, 0.29242687272713735, 2.275392121369917),
            (29.0, 203.0, 0.5391877529843827, 1.6493884834418338),
            (119.0, 2261.0, 0.7578238976242039, 1.2791178151382119),
            (299.0, 8970.0, 0.8440737486086778, 1.169883806230012),
        ] {
            near(quantile_of_f(0.025, over, under) / low, 1.0, 1e-9);
            near(quantile_of_f(0.975, over, under) / high, 1.0, 1e-9);
        }
    }

    /// scipy 1.17.1, `stats.pearsonr` of each item with the total less the item.
    #[test]
    fn items_go_with_the_rest_as_a_library_says() {
        let quiz = [
            0.705889154,
            0.705889154,
            0.0,
            0.473589199,
            0.583874208,
            0.286146545,
            -0.027444510,
            0.705889154,
            -0.123612847,
            0.475866867,
        ];
        for (i, should) in quiz.into_iter().enumerate() {
            near(with_the_rest(&rows(QUIZ), i).unwrap().value, should, 1e-8);
        }
        let listwise = [
            (0.118887660, 0.812720848),
            (0.399291826, 0.792452830),
            (0.428571429, 0.789241623),
            (0.0, 0.829475309),
            (0.518562979, 0.779645191),
            (0.780670868, 0.747567844),
            (0.554478862, 0.775413712),
            (0.780670868, 0.747567844),
            (0.448129080, 0.787795993),
            (0.448129080, 0.787795993),
            (0.614192269, 0.776014109),
        ];
        for (i, (rest, without)) in listwise.into_iter().enumerate() {
            near(with_the_rest(&rows(LISTWISE), i).unwrap().value, rest, 1e-8);
            near(alpha_without(&rows(LISTWISE), i).unwrap(), without, 1e-8);
        }
    }

    /// Fisher's z by hand: the interval of 0.5 of 103 people is tanh(0.549306 -+ 0.195996).
    #[test]
    fn the_interval_of_a_correlation_is_fishers() {
        let mut rows = Vec::new();
        for i in 0..103_u32 {
            rows.push(vec![f64::from(i % 2), f64::from(i / 2 % 2), f64::from(i * i % 7)]);
        }
        let is = with_the_rest(&rows, 0).unwrap();
        near(libm::atanh(is.high) - libm::atanh(is.low), 2.0 * 0.1959963984540054, 1e-9);
        near(libm::atanh(is.high) + libm::atanh(is.low), 2.0 * libm::atanh(is.value), 1e-9);
    }

    #[test]
    fn what_does_not_vary_is_undefined_and_not_nought() {
        let constant = rows("101 101 111 101 110");
        assert_eq!(with_the_rest(&constant, 0), None);
        assert!(with_the_rest(&constant, 1).is_some());
        assert_eq!(alpha(&rows("110 101 011")), None, "everybody has two");
        for too_few in ["", "101", "1 0 1"] {
            assert_eq!(alpha(&rows(too_few)), None, "{too_few}");
        }
        assert_eq!(alpha(&[vec![1.0, 0.0], vec![1.0]]), None, "an item is missing");
        assert_eq!(with_the_rest(&rows("10 01 11"), 0), None, "three people");
    }
}
