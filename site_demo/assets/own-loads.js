// Puts a reader's own numbers into the loads of a program. What a load is made of, what each number of repetitions is of
// a max, and what a gym can load was worked out when the site was pressed; here it is put together, taken off a rack, and
// written in the place of the example lifter's loads. Nothing leaves the browser.
(function () {
  "use strict";

  // -- Decimals, as exact as they were pressed: a whole number and a power of ten, kept to 28 digits, halves to even.

  var DIGITS = 28;

  function ten(power) {
    return 10n ** BigInt(power);
  }

  function size(whole) {
    return whole < 0n ? -whole : whole;
  }

  function number(text) {
    var parts = String(text).split(".");
    var part = parts[1] || "";
    return { whole: BigInt(parts[0] + part), places: part.length };
  }

  // Halves go to the even digit, or away from zero where `up` is set.
  function shortened(value, digits, up) {
    var step = ten(digits);
    var positive = size(value.whole);
    var kept = positive / step;
    var twice = (positive % step) * 2n;
    if (twice > step || (twice === step && (up || kept % 2n === 1n))) kept += 1n;
    return { whole: value.whole < 0n ? -kept : kept, places: value.places - digits };
  }

  function kept(value) {
    while (size(value.whole) >= ten(DIGITS)) {
      value = shortened(value, size(value.whole).toString().length - DIGITS, false);
    }
    return value;
  }

  function aligned(one, other) {
    var places = Math.max(one.places, other.places);
    return [one.whole * ten(places - one.places), other.whole * ten(places - other.places), places];
  }

  function plus(one, other) {
    var both = aligned(one, other);
    return kept({ whole: both[0] + both[1], places: both[2] });
  }

  function minus(one, other) {
    return plus(one, { whole: -other.whole, places: other.places });
  }

  function times(one, other) {
    return kept({ whole: one.whole * other.whole, places: one.places + other.places });
  }

  function over(one, other) {
    var more = DIGITS + 1 + size(other.whole).toString().length;
    var above = one.whole * ten(more);
    var found = above / other.whole;
    // A rest beyond the last digit must not look like an exact half.
    if (above % other.whole !== 0n && size(found) % 5n === 0n) {
      found += (above < 0n) === (other.whole < 0n) ? 1n : -1n;
    }
    var places = one.places - other.places + more;
    return kept(places < 0 ? { whole: found * ten(-places), places: 0 } : { whole: found, places: places });
  }

  function compare(one, other) {
    var both = aligned(one, other);
    return both[0] < both[1] ? -1 : both[0] > both[1] ? 1 : 0;
  }

  function below(value) {
    if (value.places <= 0) return value;
    var step = ten(value.places);
    var whole = value.whole / step;
    return { whole: value.whole < 0n && whole * step !== value.whole ? whole - 1n : whole, places: 0 };
  }

  function toPlaces(value, places) {
    if (value.places <= places) return { whole: value.whole * ten(places - value.places), places: places };
    return shortened(value, value.places - places, true);
  }

  function text(value) {
    var digits = size(value.whole).toString().padStart(value.places + 1, "0");
    var cut = digits.length - value.places;
    var said = value.places ? digits.slice(0, cut) + "." + digits.slice(cut).replace(/0+$/, "") : digits;
    return (value.whole < 0n ? "-" : "") + said.replace(/\.$/, "");
  }

  var ZERO = number("0"), HUNDRED = number("100"), TWO = number("2");

  function lesser(one, other) {
    return compare(one, other) <= 0 ? one : other;
  }

  // -- What can be loaded.

  // How many of the ascending masses are not above the wish.
  function upTo(masses, wish) {
    var low = 0, high = masses.length;
    while (low < high) {
      var middle = (low + high) >> 1;
      if (compare(masses[middle], wish) <= 0) low = middle + 1;
      else high = middle;
    }
    return low;
  }

  // The place of the mass nearest to the wish (a tie goes down), or of the largest not above it; -1 for none.
  function pick(masses, wish, down, cap) {
    var next = upTo(masses, wish);
    var lower = next - 1;
    var upper = next < masses.length ? next : -1;
    if (upper >= 0 && (down || (cap && compare(masses[upper], cap) > 0))) upper = -1;
    if (lower >= 0 && cap && compare(masses[lower], cap) > 0) return -1;
    if (lower < 0 || upper < 0) return upper < 0 ? lower : upper;
    return compare(minus(masses[upper], wish), minus(wish, masses[lower])) < 0 ? upper : lower;
  }

  function toStep(wish, step, down) {
    var whole = below(over(wish, step));
    var beyond = minus(wish, times(whole, step));
    if (!down && compare(times(beyond, TWO), step) > 0) whole = plus(whole, number("1"));
    return times(whole, step);
  }

  function stepsBelow(mass, step) {
    var masses = [];
    for (var next = step; compare(next, mass) < 0; next = plus(next, step)) masses.push(next);
    return masses;
  }

  function platesOf(used, kinds) {
    var found = [];
    used.split("").forEach(function (letter, place) {
      for (var count = letter.charCodeAt(0) - 65; count > 0; count -= 1) found.push(kinds[place]);
    });
    return found;
  }

  // The gym of the reader's choice, from the parts that were prepared.
  function gymOf(prepared, parts, numbers) {
    var plates = parts.plates[numbers.plates] || prepared.plates;
    var dumbbells = (parts.dumbbells[numbers.dumbbells] || prepared.dumbbells).map(number);
    var stack = (parts.stack[numbers.stack] || prepared.stack).map(number);
    var sides = plates.sides.map(number);
    var collars = number(prepared.collars);
    var bars = {};

    // Where two sides come to the same load, the later one counts, as when it was pressed.
    function bar(name) {
      if (bars[name]) return bars[name];
      var alone = plus(number((numbers.bars || {})[name] || prepared.bars[name]), collars);
      var made = new Map();
      sides.forEach(function (side, place) {
        var mass = plus(alone, times(TWO, side));
        made.set(text(mass), [mass, plates.used[place]]);
      });
      var sorted = Array.from(made.values()).sort(function (one, other) { return compare(one[0], other[0]); });
      bars[name] = {
        masses: sorted.map(function (each) { return each[0]; }),
        used: sorted.map(function (each) { return each[1]; })
      };
      return bars[name];
    }

    return {
      smallest: number(plates.smallest),
      steps: function (lift) {
        if (lift.kind === "bar") return bar(lift.bar).masses;
        return lift.kind === "dumbbell" ? dumbbells : lift.kind === "stack" ? stack : null;
      },
      plates: function (lift, place) {
        return lift.kind === "bar" ? platesOf(bar(lift.bar).used[place], plates.kinds) : null;
      }
    };
  }

  // -- The reader's maxes.

  function maxesOf(plan, numbers) {
    var tenths = number(plan.tenth).places;

    function fromSet(name) {
      var done = numbers.lifts[name];
      var lift = plan.exercises[name];
      if (!done || !lift) return null;
      var percent = plan.curves[lift.curve][Number(done[1]) - 1];
      if (!percent || (lift.kind === "bodyweight" && !numbers.body)) return null;
      var moved = number(done[0]);
      if (lift.kind === "bodyweight") moved = plus(number(numbers.body), moved);
      return toPlaces(over(times(moved, HUNDRED), number(percent)), tenths);
    }

    return function (name) {
      if (plan.exercises[name].kind === "bodyweight" && !numbers.body) return null;
      var own = fromSet(name);
      var from = plan.exercises[name].from;
      if (own || !from) return own;
      var other = fromSet(from[0]);
      return other && toPlaces(over(times(other, number(from[1])), HUNDRED), tenths);
    };
  }

  // -- Loads. A load is {mass, exact, plates, amiss}; its mass is null where the lifter picks it. Amiss is "light" where
  // the lightest there is was taken for want of a lighter one, "heavy" for want of a heavier one, "above" above the max.

  function loader(plan, gym, numbers) {
    var down = Boolean(plan.down);
    var half = number(plan.half);
    var heavy = number(plan.heavy);
    var body = numbers.body ? number(numbers.body) : ZERO;
    var made = plan.loads[numbers.unit];
    var maxOf = maxesOf(plan, numbers);
    var FEEL = { mass: null, exact: null, plates: null };
    var LACKING = Object.assign({ lacking: true }, FEEL);

    function at(lift, place, exact) {
      return { mass: gym.steps(lift)[place], exact: exact, plates: gym.plates(lift, place) };
    }

    // Whether two masses are farther apart than rounding moves a load at the light end.
    function isFar(heavier, lighter, masses) {
      var step = masses.length > 1 ? minus(masses[1], masses[0]) : ZERO;
      return compare(times(minus(heavier, lighter), TWO), step) > 0;
    }

    function rounded(lift, wish, cap) {
      var amiss = "";
      if (cap && compare(wish, cap) > 0) {
        amiss = "above";
        cap = null;
      }
      var masses = gym.steps(lift);
      if (!masses) {
        var near = toStep(wish, half, down);
        return { mass: cap ? lesser(near, toStep(cap, half, true)) : near, exact: wish, plates: null, amiss: amiss };
      }
      var isBelow = compare(wish, masses[0]) < 0;
      if (isBelow && (down || isFar(masses[0], wish, masses))) amiss = "light";
      if (!isBelow && isFar(wish, masses[masses.length - 1], masses)) amiss = "heavy";
      return Object.assign(at(lift, isBelow ? 0 : pick(masses, wish, down, cap), wish), { amiss: amiss });
    }

    function wished(makings, max) {
      var wish = makings[0] === null ? ZERO : over(times(max, number(makings[0])), HUNDRED);
      if (makings[1]) wish = makings[1] > 0 ? plus(wish, body) : minus(wish, body);
      return plus(wish, number(makings[2]));
    }

    function scaled(wish, makings) {
      return times(times(wish, number(makings[3])), number(makings[4]));
    }

    function loadOf(line, which) {
      var lift = plan.exercises[line.of];
      var max = maxOf(line.of);
      var makings = which[max ? 0 : 1] === null ? null : made[which[max ? 0 : 1]];
      if (!makings || (makings[1] && !numbers.body)) return line.share && !max ? LACKING : FEEL;
      var wish = wished(makings, max);
      if (lift.kind !== "bodyweight") return rounded(lift, scaled(wish, makings), line.over ? null : max);
      if (compare(wish, ZERO) > 0) wish = scaled(wish, makings);
      return { mass: toStep(wish, gym.smallest, down), exact: wish, plates: null };
    }

    function lighter(lift, before, wish) {
      if (before.mass === null) return FEEL;
      if (lift.kind === "bodyweight") {
        return { mass: compare(before.mass, ZERO) > 0 ? ZERO : null, exact: wish, plates: null };
      }
      var masses = gym.steps(lift);
      var fewer = masses || stepsBelow(before.mass, half);
      if (masses) fewer = masses.slice(0, masses.filter(function (m) { return compare(m, before.mass) < 0; }).length);
      var place = pick(fewer, wish, false, null);
      if (place < 0) return { mass: null, exact: wish, plates: null };
      return masses ? at(lift, place, wish) : { mass: fewer[place], exact: wish, plates: null };
    }

    function setOf(line, each) {
      var lift = plan.exercises[line.of];
      var loads = [loadOf(line, each)];
      (each[2] || []).forEach(function (drop) {
        var before = loads[loads.length - 1];
        if (!drop) loads.push(loads[0]);
        else {
          var from = drop[0] && loads[0].mass !== null ? loads[0].mass : before.mass || ZERO;
          loads.push(lighter(lift, before, times(from, number(drop[1]))));
        }
      });
      return loads;
    }

    // The repetitions a set of as many as possible may come to.
    function countOf(line, load) {
      var lift = plan.exercises[line.of];
      var max = maxOf(line.of);
      if (!max || load.mass === null || line.part || compare(max, ZERO) === 0) return null;
      var moved = lift.kind === "bodyweight" ? plus(load.mass, body) : load.mass;
      var percent = lesser(HUNDRED, over(times(moved, HUNDRED), max));
      var curve = plan.curves[lift.curve].map(number);
      if (compare(percent, curve[curve.length - 1]) < 0) return null;
      return curve.filter(function (share) { return compare(share, percent) >= 0; }).length || null;
    }

    function isHeavy(line, sets) {
      var max = maxOf(line.of);
      if (plan.exercises[line.of].kind === "bodyweight" || !plan.exercises[line.of].joints) return false;
      var most = sets.reduce(function (top, loads) {
        return loads[0].mass !== null && (top === null || compare(loads[0].mass, top) > 0) ? loads[0].mass : top;
      }, null);
      return most !== null && (!max || compare(times(most, HUNDRED), times(heavy, max)) >= 0);
    }

    function warmUp(line, load) {
      var lift = plan.exercises[line.of];
      if (load.mass === null || lift.kind === "bodyweight") return [];
      var last = null;
      return line.warm.reduce(function (steps, step) {
        var wish = over(times(load.exact, number(step[0])), HUNDRED);
        var found = rounded(lift, wish, line.over ? null : maxOf(line.of));
        if (compare(found.mass, load.mass) < 0 && (last === null || compare(found.mass, last) > 0)) {
          last = found.mass;
          steps.push([found, step[1]]);
        }
        return steps;
      }, []);
    }

    function liftOf(line, cold) {
      var sets = line.sets.map(function (each) { return setOf(line, each); });
      var heavyLine = isHeavy(line, sets);
      return {
        line: line,
        sets: sets,
        counts: line.sets.map(function (each, place) { return each[3] ? countOf(line, sets[place][0]) : null; }),
        heavy: heavyLine,
        warm: line.warm && (line.own || (cold && heavyLine)) ? warmUp(line, sets[0][0]) : [],
        lacks: !maxOf(line.of) && line.sets.some(function (each) { return each[0] !== null && each[1] === null; })
      };
    }

    // Every lift of a session in order; the first heavy one is warmed up for.
    function sessionOf(place) {
      var cold = true;
      var found = [];
      plan.sessions[place].forEach(function (group) {
        var coldHere = cold;
        group.slice(1).forEach(function (which) {
          var lift = liftOf(plan.lifts[which], coldHere);
          cold = cold && !lift.heavy;
          if (!group[0]) coldHere = cold;
          found.push(lift);
        });
      });
      return found;
    }

    return { session: sessionOf, max: maxOf };
  }

  // -- Words, the same as were printed.

  function teller(plan, numbers) {
    var words = plan.words;

    function massText(mass) {
      return text(mass).replace(".", words.point) + " " + numbers.unit;
    }

    function loadText(load, lift) {
      if (load.mass === null) return load.lacking ? words.lacking : words.feel;
      if (lift.kind !== "bodyweight") return massText(load.mass);
      var sign = compare(load.mass, ZERO);
      if (!sign) return words.body;
      if (sign > 0) return words.added.replace("{}", massText(load.mass));
      return words.help.replace("{}", massText({ whole: -load.mass.whole, places: load.mass.places }));
    }

    function platesText(load) {
      if (!load.plates) return "";
      return load.plates.length ? words.plates.replace("{}", load.plates.join(" + ").replace(/\./g, words.point)) : words.bare;
    }

    function inTurn(said) {
      var first = said[0];
      if (said.every(function (each) { return each === first; })) return first;
      if (said.length === 2) return said.join(", " + words.then + " ");
      var unit = " " + said[said.length - 1].split(" ").slice(1).join(" ");
      if (unit.length > 1 && said.every(function (each) { return each.endsWith(unit); })) {
        said = said.map(function (each, place) {
          return place < said.length - 1 ? each.slice(0, -unit.length) : each;
        });
      }
      return said.join(words.list);
    }

    function note(found, lift) {
      var last = found.sets[found.sets.length - 1];
      return found.line.note.map(function (part) {
        if (typeof part === "string") return part;
        var load = last[part];
        return load.mass === null ? words.lighter : loadText(load, lift);
      }).join("");
    }

    // A lift in words: its line's load and plates, then each set's, piece by piece.
    return function (found) {
      var lift = plan.exercises[found.line.of];
      var heads = found.line.runs.map(function (place) { return loadText(found.sets[place][0], lift); });
      return {
        name: lift.name,
        load: inTurn(heads),
        plates: heads.length === 1 ? platesText(found.sets[0][0]) : "",
        warm: found.warm.map(function (step) { return step[1].replace("{}", loadText(step[0], lift)); }).join(words.list),
        note: found.line.note ? note(found, lift) : "",
        boxes: found.sets.map(function (loads) {
          return loads.map(function (load) { return [loadText(load, lift), platesText(load)]; });
        }),
        counts: found.counts,
        counted: found.line.sets.map(function (each) { return Boolean(each[3]); }),
        heads: found.line.runs,
        amiss: found.sets.map(function (loads) { return loads[0].amiss || ""; }),
        lacks: found.lacks
      };
    };
  }

  // Everything about a program for one reader.
  function forReader(plan, prepared, parts, numbers) {
    var loads = loader(plan, gymOf(prepared, parts, numbers), numbers);
    var tell = teller(plan, numbers);
    return {
      session: function (place) { return loads.session(place).map(tell); },
      max: function (name) {
        var max = plan.exercises[name] && loads.max(name);
        return max && text(max) + " " + numbers.unit;
      },
      words: plan.words
    };
  }

  window.ownLoads = { forReader: forReader };
})();
