using Broodtide.Science.Estimation.Vessels;
using Broodtide.Units;
using Broodtide.Workbench.Species;
using NodaTime;
using Interval = Broodtide.Units.Interval;

namespace Broodtide.Workbench.Safety;

/// <summary>Chances that members of a twin cross a limit, for long enough to matter.</summary>
internal static class CrossingOfLimits
{
    public const int SoonHours = 12;

    // Chances from which something is minded. Our choice: few alarms, measured on invented months.
    public const double Some = 0.2;
    private const double Likely = 0.5;

    /// <summary>The quantity of the twin that a limit is of; none for what the twin is given.</summary>
    public static VesselQuantity? QuantityOf(LimitedQuantity quantity) =>
        quantity switch
        {
            LimitedQuantity.UnionisedAmmonia => VesselQuantity.UnionisedAmmonia,
            LimitedQuantity.Nitrite => VesselQuantity.Nitrite,
            LimitedQuantity.Nitrate => VesselQuantity.Nitrate,
            LimitedQuantity.Oxygen => VesselQuantity.Oxygen,
            LimitedQuantity.Acidity => VesselQuantity.PHNbs,
            _ => null,
        };

    /// <summary>Hours beyond a limit that matter: want of oxygen kills within hours, the rest within days (practice).</summary>
    public static int HoursThatMatter(LimitedQuantity quantity) =>
        quantity switch
        {
            LimitedQuantity.Oxygen => 2,
            LimitedQuantity.Nitrate => 24,
            _ => 6,
        };

    /// <summary>Share of members that are beyond a limit for so many hours among the places.</summary>
    public static Probability For(
        VesselTraces traces,
        VesselQuantity quantity,
        LifeLimit limit,
        int first,
        int last
    )
    {
        var matter = Math.Min(HoursThatMatter(limit.Quantity), last - first + 1);
        var values = new double[traces.Members];
        var hours = new int[traces.Members];
        for (var place = first; place <= last; place++)
        {
            traces.Read(quantity, place, values);
            for (var member = 0; member < values.Length; member++)
            {
                hours[member] += IsBeyond(values[member], limit) ? 1 : 0;
            }
        }

        return Probability.FromFraction((double)hours.Count(it => it >= matter) / hours.Length);
    }

    /// <summary>Takes away the members that are beyond a limit for so long that it matters, anywhere in the traces.</summary>
    public static void Unless(VesselTraces traces, VesselQuantity quantity, LifeLimit limit, bool[] bears)
    {
        var matter = Math.Min(HoursThatMatter(limit.Quantity), traces.Hours + 1);
        var values = new double[traces.Members];
        var hours = new int[traces.Members];
        for (var place = 0; place <= traces.Hours; place++)
        {
            traces.Read(quantity, place, values);
            for (var member = 0; member < values.Length; member++)
            {
                hours[member] += IsBeyond(values[member], limit) ? 1 : 0;
                bears[member] &= hours[member] < matter;
            }
        }
    }

    /// <summary>Share of members that are beyond a limit at a place.</summary>
    public static Probability At(VesselTraces traces, VesselQuantity quantity, LifeLimit limit, int place)
    {
        var values = new double[traces.Members];
        traces.Read(quantity, place, values);
        return Probability.FromFraction(
            (double)values.Count(value => IsBeyond(value, limit)) / values.Length
        );
    }

    /// <summary>Chance that an uncertain number is beyond a limit, taken as normal.</summary>
    public static Probability Of(Interval value, LifeLimit limit)
    {
        // From the 5 to the 95 % point are 3.29 standard deviations.
        var sd = Math.Max(1e-6, value.Width / 3.2897);
        var above = MathNet.Numerics.Distributions.Normal.CDF(0, 1, (value.Middle - limit.Value) / sd);
        return Probability.FromFraction(Math.Clamp(limit.IsUpper ? above : 1 - above, 0, 1));
    }

    /// <summary>How much a limit wants minding.</summary>
    /// <param name="limit">The limit.</param>
    /// <param name="hasDanger">Whether another limit of the quantity says where harm is near.</param>
    /// <param name="soon">Chance within twelve hours.</param>
    /// <param name="ahead">Chance within two days.</param>
    public static SafetyLevel Level(LifeLimit limit, bool hasDanger, Probability soon, Probability ahead)
    {
        var isAdvice = hasDanger && !limit.IsDanger;
        // Nitrate harms over weeks: there is no hurry with it.
        var most =
            isAdvice ? SafetyLevel.Watch
            : limit.Quantity is LimitedQuantity.Nitrate ? SafetyLevel.Watch
            : SafetyLevel.Alarm;
        var level =
            soon.Value >= Likely ? SafetyLevel.Alarm
            : ahead.Value >= Likely ? SafetyLevel.Warning
            : ahead.Value >= Some ? SafetyLevel.Watch
            : SafetyLevel.Calm;
        return level < most ? level : most;
    }

    /// <summary>The first hour ahead at which a limit is as likely crossed as not.</summary>
    public static Instant? LikelyFrom(VesselRun run, VesselQuantity quantity, LifeLimit limit)
    {
        for (var place = 0; place <= run.Ahead.Hours; place++)
        {
            if (At(run.Ahead, quantity, limit, place).Value >= Likely)
            {
                return run.Story.At(run.Story.NowHour + place);
            }
        }

        return null;
    }

    private static bool IsBeyond(double value, LifeLimit limit) =>
        limit.IsUpper ? value > limit.Value : value < limit.Value;
}
