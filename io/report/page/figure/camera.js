// From where the frame is seen, and what of it lies under a place of the picture.

import { ARROW } from "./marks.js";
import { add, dot, radians, sub, times } from "./vectors.js";

export class Camera {
  constructor(prepared) {
    this.home = prepared.centre;
    this.extent = prepared.extent;
    // Everything that must be seen: nodes, wheels, the arrows under them.
    this.corners = prepared.at.slice();
    for (const w of prepared.data.wheels) {
      const r = Math.abs(w.centre[2] - w.contact[2]);
      for (const [x, z] of [
        [r, 0],
        [-r, 0],
        [0, r],
        [0, -r],
      ])
        this.corners.push(add(w.centre, [x, 0, z]));
      this.corners.push(add(w.contact, [0, 0, -ARROW * prepared.extent]));
    }
    this.look("corner");
  }

  look(name) {
    const [yaw, pitch] = { corner: [42, 24], front: [0, 0], side: [90, 0], top: [90, 90] }[name];
    this.yaw = yaw;
    this.pitch = pitch;
    this.zoom = 1;
    const { right, up } = this.axes();
    this.target = [right, up].reduce(
      (p, axis) => add(p, times(axis, this.range(axis)[0])),
      this.home,
    );
  }

  /// Middle and length of the frame along an axis, from `home`.
  range(axis) {
    const along_ = this.corners.map((p) => dot(sub(p, this.home), axis));
    const low = Math.min(...along_),
      high = Math.max(...along_);
    return [(low + high) / 2, high - low];
  }

  axes() {
    const a = radians(this.yaw),
      e = radians(this.pitch);
    return {
      right: [-Math.sin(a), Math.cos(a), 0],
      up: [-Math.sin(e) * Math.cos(a), -Math.sin(e) * Math.sin(a), Math.cos(e)],
      eye: [Math.cos(e) * Math.cos(a), Math.cos(e) * Math.sin(a), Math.sin(e)],
    };
  }

  /// Pixels for a millimetre: the whole frame fits when zoom is 1.
  scale(width, height) {
    const { right, up } = this.axes();
    return (
      this.zoom *
      Math.min(
        (width - 40) / (this.range(right)[1] + 0.1 * this.extent),
        (height - 50) / (this.range(up)[1] + 0.1 * this.extent),
      )
    );
  }

  turn(yaw, pitch) {
    this.yaw = (((this.yaw + yaw) % 360) + 360) % 360;
    this.pitch = Math.min(90, Math.max(-90, this.pitch + pitch));
  }

  pan(dx, dy, width, height) {
    const { right, up } = this.axes(),
      s = this.scale(width, height);
    this.target = add(this.target, add(times(right, -dx / s), times(up, dy / s)));
  }

  magnify(by) {
    this.zoom = Math.min(40, Math.max(0.3, this.zoom * by));
  }

  /// Gives p => [x, y, depth] in pixels from the upper left; what is nearer has more depth.
  projector(width, height) {
    const { right, up, eye } = this.axes(),
      s = this.scale(width, height),
      t = this.target;
    return (p) => {
      const q = sub(p, t);
      return [width / 2 + s * dot(q, right), height / 2 - s * dot(q, up), s * dot(q, eye)];
    };
  }
}

/// The member drawn at a place, or -1: the nearest to the eye of those under it, else the closest.
export function memberAt(drawn, project, scale, x, y) {
  let best = -1,
    score = Infinity;
  for (const sweep of drawn.sweeps) {
    if (sweep.member === undefined) continue;
    const line = sweep.axis.map(project),
      half = 0.5 * scale * Math.max(sweep.width, sweep.height);
    for (let i = 0; i + 1 < line.length; ++i) {
      const [ax, ay, az] = line[i],
        [bx, by, bz] = line[i + 1];
      const l2 = (bx - ax) ** 2 + (by - ay) ** 2;
      const t = l2
        ? Math.min(1, Math.max(0, ((x - ax) * (bx - ax) + (y - ay) * (by - ay)) / l2))
        : 0;
      const away = Math.hypot(x - ax - t * (bx - ax), y - ay - t * (by - ay));
      if (away > half + 8) continue;
      const depth = az + t * (bz - az);
      const s = away <= half ? -1e6 - depth : away;
      if (s < score) {
        score = s;
        best = sweep.member;
      }
    }
  }
  return best;
}
