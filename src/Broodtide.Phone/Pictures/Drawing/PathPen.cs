using System.Globalization;
using System.Text;
using Broodtide.Units;

namespace Broodtide.Phone.Pictures;

/// <summary>Writes the letters of an SVG path: absolute, invariant, one decimal, never a number that is not finite.</summary>
public sealed class PathPen
{
    private readonly StringBuilder _text = new();

    public bool IsEmpty => _text.Length == 0;

    public static string Number(double value)
    {
        var rounded = Math.Round(Finite.Required(value), 1);
        return (rounded == 0 ? 0 : rounded).ToString("0.#", CultureInfo.InvariantCulture);
    }

    public PathPen Move(double x, double y) => Put('M', x, y);

    public PathPen Line(double x, double y) => Put('L', x, y);

    public PathPen Curve(double x1, double y1, double x2, double y2, double x, double y)
    {
        Put('C', x1, y1);
        Put(' ', x2, y2);
        return Put(' ', x, y);
    }

    public PathPen Close()
    {
        _text.Append('Z');
        return this;
    }

    /// <summary>A run of straight pieces; begins a new stroke unless it goes on from the last point.</summary>
    public PathPen Through(IReadOnlyList<(double X, double Y)> points, bool goOn = false)
    {
        for (var i = 0; i < points.Count; i++)
        {
            _ = i == 0 && !goOn ? Move(points[i].X, points[i].Y) : Line(points[i].X, points[i].Y);
        }

        return this;
    }

    /// <summary>A bar with closed ends, standing.</summary>
    public PathPen StandingBar(double x, double top, double bottom, double half) =>
        Move(x, top)
            .Line(x, bottom)
            .Move(x - half, top)
            .Line(x + half, top)
            .Move(x - half, bottom)
            .Line(x + half, bottom);

    public override string ToString() => _text.ToString();

    private PathPen Put(char letter, double x, double y)
    {
        _text.Append(letter).Append(Number(x)).Append(' ').Append(Number(y));
        return this;
    }
}
