using System.Globalization;
using Broodtide.Domain.Journal;
using Broodtide.Workbench;
using Broodtide.Workbench.Safety;
using Broodtide.Workbench.Species;
using NodaTime;
using Interval = Broodtide.Units.Interval;

namespace Broodtide.Scoring;

/// <summary>
/// Lives invented months through the product, a look every evening, and adds up alarms that nothing followed and
/// crossings of a limit that nothing foretold.
/// </summary>
public sealed class AlarmBoard
{
    // When the keeper looks: after the evening's work.
    private const double HourOfLook = 20;
    private const double LooksAheadDays = 2;

    private static readonly LimitedQuantity[] Judged =
    [
        LimitedQuantity.UnionisedAmmonia,
        LimitedQuantity.Nitrite,
        LimitedQuantity.Oxygen,
        LimitedQuantity.Acidity,
    ];

    private readonly Func<Fact, Fact?> _plant;
    private readonly Dictionary<LimitedQuantity, Tally> _tallies = Judged.ToDictionary(
        it => it,
        _ => new Tally()
    );
    private readonly bool _evenings;
    private int _months;

    /// <param name="plant">What a journal says in place of a fact: a wrong idea of the vessel, to see that it is caught.</param>
    /// <param name="evenings">A line for every evening too.</param>
    public AlarmBoard(Func<Fact, Fact?>? plant = null, bool evenings = false)
    {
        _plant = plant ?? (fact => fact);
        _evenings = evenings;
    }

    public const string Header = "month,habit,quantity,alarms,false,crossings,missed";

    /// <summary>Alarms that nothing followed, in a month of one vessel.</summary>
    public double FalseAMonth => (double)_tallies.Values.Sum(tally => tally.False) / Math.Max(1, _months);

    /// <summary>Share of crossings that no alarm came before.</summary>
    public double MissedShare =>
        (double)_tallies.Values.Sum(tally => tally.Missed)
        / Math.Max(1, _tallies.Values.Sum(tally => tally.Crossings));

    /// <summary>Takes one folder; a line for each quantity that had an alarm or a crossing.</summary>
    /// <exception cref="FileTroubleException">A file is missing or cannot be read.</exception>
    public IEnumerable<string> Take(string folder)
    {
        var month = InventedMonth.Read(folder, _plant);
        _months++;
        var account = Account.Of([]);
        Outlook? outlook = null;
        var days = (int)Math.Floor(month.Truth[^1].Day);
        var alarms = Judged.ToDictionary(it => it, _ => new List<double>());
        var limits = new Dictionary<LimitedQuantity, LifeLimit>();
        var next = 0;
        for (var day = 1; day < days; day++)
        {
            var look = day + (HourOfLook / 24);
            var now = InventedMonth.At(look);
            for (; next < month.Entries.Count && month.Entries[next].At <= now; next++)
            {
                account.Add(month.Entries[next].Entry);
            }

            outlook = outlook?.Renewed(now) ?? Outlook.Of(account, now, DateTimeZone.Utc);
            if (outlook.SafetyOf(month.Vessel) is not { } safety)
            {
                continue;
            }

            foreach (var limit in safety.Limits.Where(it => Judged.Contains(it.Limit.Quantity)))
            {
                if (IsJudged(limit.Limit, safety))
                {
                    limits[limit.Limit.Quantity] = limit.Limit;
                    var truth = Of(month.Truth[(int)Math.Round(look * 24) - 1], limit.Limit.Quantity);
                    _tallies[limit.Limit.Quantity].TakeEvening(limit.Now, truth, Told(limit.Limit.Quantity));
                    if (_evenings)
                    {
                        yield return string.Create(
                            CultureInfo.InvariantCulture,
                            $"{Path.GetFileName(folder)},{look:0.00},{limit.Limit.Quantity},now {limit.Now.Low:0.###} {limit.Now.Middle:0.###} {limit.Now.High:0.###},truth {truth:0.###},crossed in 12 h {limit.CrossedSoon.Value:0.00} and in 48 h {limit.CrossedAhead.Value:0.00},{limit.Level}"
                        );
                    }

                    if (limit.Level >= SafetyLevel.Warning)
                    {
                        alarms[limit.Limit.Quantity].Add(look);
                    }
                }
            }
        }

        foreach (var (quantity, limit) in limits.OrderBy(pair => pair.Key))
        {
            var crossings = Crossings(month, limit).ToList();
            var tally = new Tally();
            tally.Take(alarms[quantity], crossings);
            _tallies[quantity].Add(tally);
            if (tally.Alarms > 0 || tally.Crossings > 0)
            {
                yield return string.Create(
                    CultureInfo.InvariantCulture,
                    $"{Path.GetFileName(folder)},{month.Habit},{quantity},{tally.Alarms},{tally.False},{tally.Crossings},{tally.Missed}"
                );
            }
        }
    }

    public IEnumerable<string> Summary()
    {
        foreach (var (quantity, tally) in _tallies)
        {
            yield return string.Create(
                CultureInfo.InvariantCulture,
                $"{quantity}: {tally.Alarms} alarms in {_months} months, {tally.False} of them with nothing after ({(double)tally.False / Math.Max(1, _months):0.00} a month); {tally.Crossings} crossings, {tally.Missed} not foretold; the truth of the evening in {100.0 * tally.Held / Math.Max(1, tally.Evenings):0} % of the 90 % intervals, in {100.0 * tally.NearlyHeld / Math.Max(1, tally.Evenings):0} % but for what no test tells"
            );
        }

        yield return string.Create(
            CultureInfo.InvariantCulture,
            $"all: {FalseAMonth:0.00} false alarms in a month of one vessel, {100 * MissedShare:0.0} % of crossings not foretold"
        );
    }

    // Of several limits of one quantity the one where harm is near is judged; of acidity the upper.
    private static bool IsJudged(LifeLimit limit, VesselSafety safety) =>
        (limit.Quantity is not LimitedQuantity.Acidity || limit.IsUpper)
        && (
            limit.IsDanger
            || !safety.Limits.Any(other =>
                other.Limit.IsDanger
                && other.Limit.Quantity == limit.Quantity
                && other.Limit.IsUpper == limit.IsUpper
            )
        );

    /// <summary>Stretches of the truth that are beyond a limit for as long as the product says that matters.</summary>
    private static IEnumerable<(double From, double To)> Crossings(InventedMonth month, LifeLimit limit)
    {
        var hours = limit.Quantity is LimitedQuantity.Oxygen ? 2 : 6;
        double? from = null;
        var run = 0;
        foreach (var hour in month.Truth)
        {
            var value = Of(hour, limit.Quantity);
            if (limit.IsUpper ? value > limit.Value : value < limit.Value)
            {
                from ??= hour.Day;
                run++;
            }
            else if (from is { } began)
            {
                if (run >= hours)
                {
                    yield return (began, hour.Day);
                }

                (from, run) = (null, 0);
            }
        }

        if (from is { } last && run >= hours)
        {
            yield return (last, month.Truth[^1].Day);
        }
    }

    private static double Of(HourOfTruth hour, LimitedQuantity quantity) =>
        quantity switch
        {
            LimitedQuantity.UnionisedAmmonia => hour.UnionisedAmmonia,
            LimitedQuantity.Nitrite => hour.Nitrite,
            LimitedQuantity.Oxygen => hour.Oxygen,
            _ => hour.Ph,
        };

    // What no keeper's test tells apart: half the finest step of common drop tests, a meter's error of oxygen and pH.
    private static double Told(LimitedQuantity quantity) =>
        quantity switch
        {
            LimitedQuantity.UnionisedAmmonia => 0.005,
            LimitedQuantity.Nitrite => 0.025,
            LimitedQuantity.Oxygen => 0.2,
            _ => 0.05,
        };

    private sealed class Tally
    {
        public int Evenings { get; private set; }

        public int Held { get; private set; }

        public int NearlyHeld { get; private set; }

        public void TakeEvening(Interval now, double truth, double told)
        {
            Evenings++;
            Held += now.Contains(truth) ? 1 : 0;
            NearlyHeld += truth >= now.Low - told && truth <= now.High + told ? 1 : 0;
        }

        public int Alarms { get; private set; }

        public int False { get; private set; }

        public int Crossings { get; private set; }

        public int Missed { get; private set; }

        public void Add(Tally other)
        {
            Alarms += other.Alarms;
            False += other.False;
            Crossings += other.Crossings;
            Missed += other.Missed;
            Evenings += other.Evenings;
            Held += other.Held;
            NearlyHeld += other.NearlyHeld;
        }

        /// <summary>
        /// Alarms on evenings one after the other are one. It is false when the limit is not crossed from its first evening
        /// to two days after its last; a crossing is missed when no alarm stood on any of the evenings of the two days
        /// before it began, or on the evening of the day it began before its half was over. Nights of one stretch that
        /// come again are one crossing.
        /// </summary>
        public void Take(List<double> looks, List<(double From, double To)> crossings)
        {
            for (var i = 0; i < looks.Count; )
            {
                var first = looks[i];
                var last = first;
                for (i++; i < looks.Count && looks[i] - last < 1.5; i++)
                {
                    last = looks[i];
                }

                Alarms++;
                False += crossings.Any(it => it.From <= last + LooksAheadDays && it.To >= first) ? 0 : 1;
            }

            var end = double.NegativeInfinity;
            foreach (var (from, to) in crossings)
            {
                var isAgain = from - end < 1.5;
                end = to;
                // The first evening comes after a day: what began before it could not be foretold.
                if (!isAgain && from > 1 + (HourOfLook / 24))
                {
                    Crossings++;
                    Missed += looks.Any(look => look >= from - LooksAheadDays && look <= from) ? 0 : 1;
                }
            }
        }
    }
}
