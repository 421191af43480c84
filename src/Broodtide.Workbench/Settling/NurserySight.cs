using Broodtide.Domain.Larvae;
using Broodtide.Units;

namespace Broodtide.Workbench.Settling;

/// <summary>
/// Which share of the juveniles of a nursery is seen by each way of counting: they are clear, small and hide in moss. Common
/// practice, no source; wide.
/// </summary>
internal static class NurserySight
{
    /// <summary>Where nobody counted since they came: the middle of none and all.</summary>
    public const double UsualLeft = 0.5;

    public static Interval ShareSeen(CountMethod method) =>
        method switch
        {
            CountMethod.Full => Interval.FromPoints(0.8, 0.95, 1),
            CountMethod.Aliquot => Interval.FromPoints(0.5, 0.8, 1),
            CountMethod.Photo => Interval.FromPoints(0.3, 0.6, 0.95),
            CountMethod.Beam => Interval.FromPoints(0.2, 0.5, 0.9),
            _ => Interval.FromPoints(0.2, 0.5, 0.9),
        };
}
