// The very first program of the page, written so that old browsers read it too: it shows the page's first
// words in the likely language, and says so in words when the rest cannot start. What needs no program at all,
// because not even this one came, is said by the style sheet (#late). It stands before the style sheet, which
// a program waits for: so it sees that fail as well.
(function () {
  "use strict";

  var over = false;

  function tag(part) {
    return document.querySelector('meta[name="coneyard-' + part + '"]');
  }

  function by(id) {
    return document.getElementById(id);
  }

  /** The language that the pages will most likely ask for. */
  function likely_language() {
    var set = null;
    try {
      set = JSON.parse(localStorage.getItem("coneyard-settings")).lang;
    } catch (e) {
      // Nothing is kept, or it cannot be read: then it is the browser's language.
    }
    var code = String(set || navigator.language).split("-")[0].toLowerCase();
    return /^[a-z]+$/.test(code) && tag("words-" + code) ? code : "en";
  }

  /** Shows of the page's first words those in this language. */
  function show(element) {
    var language = likely_language();
    var words = element.querySelectorAll("[lang]");
    var i;
    for (i = 0; i < words.length; i += 1) {
      words[i].hidden = words[i].getAttribute("lang") !== language;
    }
    element.hidden = false;
  }

  /** Whether an error tells of something that could not be fetched. */
  function is_of_the_network(why) {
    return /fetch|network|load|: [45]\d\d$/i.test(String(why));
  }

  /**
   * Says on the bare page that the pages cannot be shown, and why: "old" for a browser that cannot,
   * "network" for something that did not come, "error" for everything else.
   */
  function trouble(why, kind) {
    var reasons, i;
    var told = kind || (is_of_the_network(why) ? "network" : "error");
    // What went wrong first is told: the rest comes of it.
    if (!by("trouble").hidden) return;
    started();
    reasons = by("trouble").querySelectorAll("[data-why]");
    for (i = 0; i < reasons.length; i += 1) {
      reasons[i].hidden = reasons[i].getAttribute("data-why") !== told;
    }
    by("trouble").hidden = false;
    by("trouble-detail").textContent = String((why && why.message) || why);
  }

  /** Takes away what the bare page shows until there are pages. */
  function started() {
    over = true;
    ["late", "door"].forEach(function (id) {
      var element = by(id);
      if (element) element.parentNode.removeChild(element);
    });
  }

  /** Says how much of the pages has come, bytes. */
  function tell(got, all) {
    var bars = document.querySelectorAll("#door progress");
    var bytes = document.querySelectorAll("#door .bytes");
    var i;
    for (i = 0; i < bars.length; i += 1) {
      bars[i].value = got / all;
      bytes[i].textContent = Math.round(got / 1000) + " / " + Math.round(all / 1000) + " kB";
    }
  }

  /** What is seen at first: the start, or that another page is on its way. */
  function open_door() {
    var at_start = /^(#\/?)?$/.test(location.hash);
    var starts = document.querySelectorAll("#door .start");
    var ways = document.querySelectorAll("#door .way");
    var i;
    if (over) return;
    for (i = 0; i < starts.length; i += 1) starts[i].hidden = !at_start;
    for (i = 0; i < ways.length; i += 1) ways[i].hidden = at_start;
    show(by("door"));
  }

  window.coneyard = {
    likely_language: likely_language,
    trouble: trouble,
    started: started,
    tell: tell,
  };

  // Before there are pages, every error ends the start.
  window.addEventListener(
    "error",
    function (event) {
      var from = event.target;
      if (over) return;
      if (from && from !== window) {
        if (from.tagName === "SCRIPT" || from.rel === "stylesheet") {
          when_there(function () {
            trouble(from.src || from.href, "network");
          });
        }
        return;
      }
      when_there(function () {
        trouble(event.error || event.message);
      });
    },
    true,
  );
  window.addEventListener("unhandledrejection", function (event) {
    if (over) return;
    when_there(function () {
      trouble(event.reason);
    });
  });

  /** Does it as soon as the page has its words. */
  function when_there(act) {
    if (document.readyState === "loading") document.addEventListener("DOMContentLoaded", act);
    else act();
  }

  when_there(function () {
    if (typeof WebAssembly !== "object" || !("noModule" in document.createElement("script"))) {
      trouble("WebAssembly", "old");
      return;
    }
    open_door();
    window.addEventListener("hashchange", open_door);
  });
})();
