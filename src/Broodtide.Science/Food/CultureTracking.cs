using Broodtide.Units;

namespace Broodtide.Science.Food;

/// <summary>Density on a day along the way.</summary>
/// <param name="Day">Days since the start.</param>
/// <param name="Density">As it was believed on that day, in the unit of the prior.</param>
public readonly record struct CultureTrackPoint(double Day, Interval Density);

/// <summary>Keeps what was believed along the way.</summary>
internal sealed class CultureTracking(double? everyDays)
{
    private readonly double? _every = everyDays is { } days ? Finite.Positive(days) : null;
    private readonly List<CultureTrackPoint> _points = [];

    public IReadOnlyList<CultureTrackPoint> Points => _points;

    public void Carry(CultureNode[] nodes, double from, double to)
    {
        if (_every is not { } step)
        {
            CultureGrowth.Carry(nodes, to - from);
            return;
        }

        for (var at = from; at < to; )
        {
            var next = Math.Min(to, at + step);
            CultureGrowth.Carry(nodes, next - at);
            at = next;
            See(at, nodes);
        }
    }

    public void See(double day, CultureNode[] nodes)
    {
        if (_every is null)
        {
            return;
        }

        var (mean, variance) = CultureNode.Moments(nodes);
        var reach = Interval.StandardNormal95 * Math.Sqrt(variance);
        _points.Add(
            new(day, Interval.FromPoints(Math.Exp(mean - reach), Math.Exp(mean), Math.Exp(mean + reach)))
        );
    }
}
