'use strict';
// Hauls a rig on its plate by the rig's own ratios: bodies, hand, wheels, strands, and paint marks that keep their place
// on the rope. `motion` is what the server or the lesson says of it; `pose` shows a share of the whole way, 0 to 1.
const MARKS = 3;

// A number as it is shown everywhere: exact where four figures say it, else three digits, none made up before the point.
function measured(value) {
  const four = Number(value.toPrecision(4));
  if (Math.abs(four - value) <= 1e-9 * Math.abs(value)) return String(four);
  return Math.abs(value) >= 1000 ? value.toFixed(0) : String(Number(value.toPrecision(3)));
}

function Hauling(svg, motion) {
  const rates = new Map(motion.bodies), wheels = new Map(motion.wheels.map((wheel) => [wheel.sheave, wheel]));
  const strands = new Map(motion.strands.map((strand) => [strand.strand, strand]));
  rates.set('hand', motion.hand);
  const groups = [...svg.querySelectorAll('g')], runs = [...svg.querySelectorAll('[data-strand]')];
  const paint = motion.ropes.flatMap((rope) => painted(rope));
  let far = 0;

  function painted(rope) {
    const whole = length(rope, 0);
    return Array.from({ length: MARKS }, (_, n) => {
      const circle = document.createElementNS(svg.namespaceURI, 'circle');
      circle.setAttribute('class', 'paint');
      circle.setAttribute('r', '5');
      svg.append(circle);
      return { rope, circle, at: whole * (0.16 + 0.3 * n) };
    });
  }

  function pieces(rope, travel) {
    return rope.pieces.map(([kind, name, first, last]) => {
      if (kind === 'strand') {
        const s = strands.get(name);
        const y1 = s.y1 + s.rate1 * travel, y2 = s.y2 + s.rate2 * travel;
        return { long: Math.hypot(s.x2 - s.x1, y2 - y1), place: (t) => [s.x1 + (s.x2 - s.x1) * t, y1 + (y2 - y1) * t] };
      }
      const w = wheels.get(name), y = w.y + (rates.get(w.body) || 0) * travel;
      const turn = (t) => (first + (last - first) * t) * Math.PI / 180;
      return {
        long: w.r * Math.abs(last - first) * Math.PI / 180,
        place: (t) => [w.x + w.r * Math.cos(turn(t)), y + w.r * Math.sin(turn(t))],
      };
    });
  }

  function length(rope, travel) { return pieces(rope, travel).reduce((sum, piece) => sum + piece.long, 0); }

  function mark({ rope, circle, at }, travel) {
    let left = at;
    for (const piece of pieces(rope, travel)) {
      if (left <= piece.long) {
        const [x, y] = piece.place(left / piece.long);
        circle.setAttribute('cx', x.toFixed(2));
        circle.setAttribute('cy', y.toFixed(2));
        break;
      }
      left -= piece.long;
    }
  }

  // As far as the rig lets it go, and no farther than the frame of the plate shows.
  function reach() {
    const view = svg.viewBox.baseVal;
    return groups.reduce((least, group) => {
      const rate = rates.get(group.dataset.body) || 0;
      if (!rate || group.hasAttribute('transform')) return least;
      const box = group.getBBox();
      return Math.min(least, ((rate > 0 ? view.y + view.height - box.y - box.height : box.y - view.y) - 4) / Math.abs(rate));
    }, 0.9 * motion.most);
  }

  function pose(share) {
    far = far || Math.max(1, reach());
    const travel = share * far;
    for (const group of groups) {
      const wheel = wheels.get(group.dataset.wheel), turns = group.dataset.layer === 'wheel' && wheel;
      const rate = rates.get(wheel ? wheel.body : group.dataset.body) || 0;
      const turn = turns ? ` rotate(${(wheel.turn * travel).toFixed(2)} ${wheel.x} ${wheel.y})` : '';
      if (rate || turn) group.setAttribute('transform', `translate(0 ${(rate * travel).toFixed(2)})${turn}`);
    }
    for (const line of runs) {
      const strand = strands.get(line.dataset.strand);
      if (strand.x1 !== strand.x2) continue;
      let y1 = strand.y1 + strand.rate1 * travel, y2 = strand.y2 + strand.rate2 * travel;
      if (line.hasAttribute('transform') && y1 > y2) [y1, y2] = [y2, y1];
      line.setAttribute('y1', y1.toFixed(2));
      line.setAttribute('y2', y2.toFixed(2));
    }
    for (const each of paint) mark(each, travel);
  }

  return { pose };
}
