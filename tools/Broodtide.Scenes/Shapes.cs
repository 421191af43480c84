namespace Broodtide.Scenes;

/// <summary>Outlines of things: the brightness at a place beside their middle, in pixels.</summary>
internal static class Shapes
{
    private const int Joints = 8;

    /// <summary>
    /// A curved capsule that tapers to the tail, 0.16 of its length wide at most, with a dark eye in the head; its zero is the
    /// middle of its axis.
    /// </summary>
    public static Func<double, double, double> Larva(
        double length,
        double heading,
        double bend,
        double brightness,
        bool hasEye
    )
    {
        var (xs, ys) = (new double[Joints + 1], new double[Joints + 1]);
        for (var i = 1; i <= Joints; i++)
        {
            var angle = heading + (bend * (((i - 0.5) / Joints) - 0.5));
            xs[i] = xs[i - 1] + (length / Joints * Math.Cos(angle));
            ys[i] = ys[i - 1] + (length / Joints * Math.Sin(angle));
        }

        var (mx, my) = (xs[Joints / 2], ys[Joints / 2]);
        var wide = 0.16 * length / 2;
        // The head is at the end of the axis.
        var (ex, ey) = (xs[Joints - 1] - mx, ys[Joints - 1] - my);
        var eye = Math.Max(0.35, 0.3 * wide);
        return (x, y) =>
        {
            if (hasEye && ((x - ex) * (x - ex)) + ((y - ey) * (y - ey)) < eye * eye)
            {
                return 0.05 * brightness;
            }

            for (var i = 0; i < Joints; i++)
            {
                var (ax, ay) = (xs[i] - mx, ys[i] - my);
                var (ux, uy) = (xs[i + 1] - xs[i], ys[i + 1] - ys[i]);
                var t = Math.Clamp((((x - ax) * ux) + ((y - ay) * uy)) / ((ux * ux) + (uy * uy)), 0, 1);
                var (dx, dy) = (x - ax - (t * ux), y - ay - (t * uy));
                var width = wide * (0.35 + (0.65 * (i + t) / Joints));
                if ((dx * dx) + (dy * dy) < width * width)
                {
                    return brightness;
                }
            }

            return 0;
        };
    }

    public static Func<double, double, double> Polygon(
        IReadOnlyList<Spot> outline,
        double turned,
        double brightness
    )
    {
        var (c, s) = (Math.Cos(turned), Math.Sin(turned));
        return (x, y) =>
        {
            var (u, v) = ((x * c) + (y * s), (y * c) - (x * s));
            var isInside = false;
            for (int i = 0, j = outline.Count - 1; i < outline.Count; j = i++)
            {
                var (a, b) = (outline[i], outline[j]);
                if (a.Y > v != b.Y > v && u < ((b.X - a.X) * (v - a.Y) / (b.Y - a.Y)) + a.X)
                {
                    isInside = !isInside;
                }
            }

            return isInside ? brightness : 0;
        };
    }

    /// <summary>A thin ring with a bright point.</summary>
    public static Func<double, double, double> Bubble(
        double size,
        double heading,
        double brightness,
        double fine
    )
    {
        var radius = size / 2;
        var half = Math.Max(0.25 * fine, 0.06 * radius);
        var (px, py) = (0.6 * radius * Math.Cos(heading), 0.6 * radius * Math.Sin(heading));
        var point = Math.Max(0.5 * fine, 0.12 * radius);
        return (x, y) =>
        {
            var (dx, dy) = (x - px, y - py);
            return (dx * dx) + (dy * dy) < point * point ? 2.5 * brightness
                : Math.Abs(Math.Sqrt((x * x) + (y * y)) - radius) < half ? brightness
                : 0;
        };
    }

    public static Func<double, double, double> Ellipse(double size, double turned, double brightness)
    {
        var (c, s) = (Math.Cos(turned), Math.Sin(turned));
        return (x, y) =>
        {
            var (u, v) = (((x * c) + (y * s)) / size, ((y * c) - (x * s)) / (0.8 * size));
            return (u * u) + (v * v) < 1 ? brightness : 0;
        };
    }

    public static Func<double, double, double> Scratch(
        double length,
        double turned,
        double brightness,
        double fine
    )
    {
        var (c, s) = (Math.Cos(turned), Math.Sin(turned));
        return (x, y) =>
            Math.Abs((x * c) + (y * s)) < length / 2 && Math.Abs((y * c) - (x * s)) < 0.5 * fine
                ? brightness
                : 0;
    }
}
