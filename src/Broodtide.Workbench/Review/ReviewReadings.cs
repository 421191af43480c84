using Broodtide.Domain.Journal;
using Broodtide.Domain.Readings;
using Broodtide.Domain.Vessels;
using Broodtide.Science.Estimation.Vessels;
using Broodtide.Units;
using Broodtide.Workbench.Safety;
using Broodtide.Workbench.Species;
using NodaTime;
using Interval = Broodtide.Units.Interval;

namespace Broodtide.Workbench.Review;

/// <summary>
/// What was read of the water of a run's vessels, each reading with the limits for larvae that held for it. Those of the
/// most tender stage, so that what is ruled out is ruled out for all.
/// </summary>
internal sealed class ReviewReadings
{
    // A household thermometer; practice, no source.
    private const double WarmthSd = 0.3;

    // What a figure beyond the range of its formula is off by; our choice, no source.
    private const double BeyondSdShare = 0.05;

    // pH and temperature of the same day say how much of the ammonia poisons.
    private static readonly Duration SameDay = Duration.FromHours(24);

    private static readonly LimitedQuantity[] Told =
    [
        LimitedQuantity.Salinity,
        LimitedQuantity.Temperature,
        LimitedQuantity.UnionisedAmmonia,
        LimitedQuantity.Nitrite,
        LimitedQuantity.Oxygen,
        LimitedQuantity.Acidity,
    ];

    private readonly ReviewSpan _span;
    private readonly IReadOnlyList<LifeLimit> _limits;

    public ReviewReadings(ReviewSpan span)
    {
        _span = span;
        _limits = span.Profile.LimitsFor(LifeStage.EarlyZoea);
        All = [.. span.Stays.SelectMany(Of).OrderBy(reading => reading.At)];
        Food = [.. span.Stays.Select(FoodOf)];
    }

    /// <summary>All readings, oldest first.</summary>
    public IReadOnlyList<WaterReading> All { get; }

    /// <summary>What was fed, by vessel.</summary>
    public IReadOnlyList<ReviewedFood> Food { get; }

    /// <summary>The readings of one quantity in one vessel.</summary>
    public IEnumerable<WaterReading> In(VesselTime stay, LimitedQuantity quantity) =>
        All.Where(reading => reading.Vessel == stay.Vessel.Id && reading.Quantity == quantity);

    public IEnumerable<ReviewedWater> ByVessel()
    {
        foreach (var stay in _span.Stays)
        {
            foreach (var quantity in Told)
            {
                var read = In(stay, quantity).ToList();
                if (read.Count == 0 && quantity is LimitedQuantity.Acidity)
                {
                    continue;
                }

                double[] values = [.. read.Select(reading => reading.Value).Order()];
                yield return new(
                    stay.Vessel.Id,
                    quantity,
                    read.Count,
                    values.Length == 0
                        ? null
                        : Interval.FromPoints(values[0], values[values.Length / 2], values[^1]),
                    Limit(quantity, isUpper: false),
                    quantity is LimitedQuantity.UnionisedAmmonia
                        ? AmmoniaLimit(read)
                        : Limit(quantity, isUpper: true),
                    read.Count(reading => reading.Lies is Lies.Outside),
                    GapDays(read.Select(reading => reading.At), stay.From, stay.Until)
                );
            }
        }
    }

    /// <summary>The longest time without an instant of some, in days.</summary>
    public static double GapDays(IEnumerable<Instant> instants, Instant from, Instant until)
    {
        var longest = Duration.Zero;
        var last = from;
        foreach (var at in instants.Where(at => at <= until).Order())
        {
            longest = at > last && at - last > longest ? at - last : longest;
            last = Instant.Max(last, at);
        }

        return Math.Max(longest.TotalDays, (until - last).TotalDays);
    }

    private IEnumerable<WaterReading> Of(VesselTime stay)
    {
        var told = _span
            .Facts<ReadingTaken>(stay.Vessel.Id, stay.From, stay.Until)
            .Where(read => read.Fact.Vessel == stay.Vessel.Id)
            .ToList();
        foreach (var (at, fact, _) in told)
        {
            if (_span.Outlook.Meaning.Of(fact, at) is { } salt)
            {
                yield return Plain(LimitedQuantity.Salinity, salt.Salinity.Practical, salt.Sd);
            }
            else if (BeyondItsFormula(fact) is { } shown)
            {
                yield return Plain(LimitedQuantity.Salinity, shown, BeyondSdShare * shown);
            }
            else if (fact.Value.AsTemperature() is { } warmth)
            {
                yield return Plain(LimitedQuantity.Temperature, warmth.Celsius, WarmthSd);
            }
            else if (AmmoniaReading.Of(fact.Value) is { } ammonia)
            {
                yield return Ammonia(stay, at, ammonia, told.Select(read => (read.When, read.Fact)));
            }
            else if (Plainly(fact) is { } other)
            {
                yield return Plain(other.Quantity, other.Value, other.Sd);
            }

            WaterReading Plain(LimitedQuantity quantity, double value, double sd) =>
                new(
                    stay.Vessel.Id,
                    at,
                    quantity,
                    value,
                    sd,
                    Limit(quantity, isUpper: false),
                    Limit(quantity, isUpper: true)
                );
        }
    }

    // A scale in grams for each kilogram whose formula ends below what was shown: the figure itself says on which side of
    // the band it lies, and that is all that is asked.
    private static double? BeyondItsFormula(ReadingTaken read) =>
        read.Value.Unit is "sal:brine-g/kg" or "sal:g/kg" or UnitCode.PracticalSalinity
        && read.Value.Value is > 0 and < 400
            ? read.Value.Value
            : null;

    private static (LimitedQuantity Quantity, double Value, double Sd)? Plainly(ReadingTaken read)
    {
        // Atomic weights: N 14.007, NO2 46.005.
        const double nitrogen = 14.007 / 46.005;
        var value = read.Value.Value;
        if (!double.IsFinite(value) || value is < 0 or > 1e4)
        {
            return null;
        }

        return read.Value.Unit switch
        {
            "mg/L{NO2-N}" => Usual(LimitedQuantity.Nitrite, VesselQuantity.Nitrite, value),
            "mg/L{NO2}" => Usual(LimitedQuantity.Nitrite, VesselQuantity.Nitrite, value * nitrogen),
            "mg/L{O2}" => Usual(LimitedQuantity.Oxygen, VesselQuantity.Oxygen, value),
            "[pH]" when value <= 14 => Usual(LimitedQuantity.Acidity, VesselQuantity.PHNbs, value),
            _ => null,
        };
    }

    // The error of a keeper's kit, as the twin of a vessel takes it.
    private static (LimitedQuantity, double, double) Usual(
        LimitedQuantity quantity,
        VesselQuantity of,
        double value
    )
    {
        var usual = VesselReading.Measured.AtHome(0, of, value);
        return (quantity, value, Math.Sqrt((usual.Sd * usual.Sd) + Math.Pow(usual.Share * value, 2)));
    }

    // Total ammonia is held against what its pH makes of it, where one was read on the same day; else against the total
    // that the profile allows.
    private WaterReading Ammonia(
        VesselTime stay,
        Instant at,
        AmmoniaReading said,
        IEnumerable<(Instant When, ReadingTaken Fact)> told
    )
    {
        var poison = Limit(LimitedQuantity.UnionisedAmmonia, isUpper: true);
        var isTotal = said.Form is AmmoniaForm.TotalAsNitrogen or AmmoniaForm.TotalAsAmmonium;
        var value = said.Form switch
        {
            AmmoniaForm.TotalAsAmmonium => said.Amount.MilligramsPerLitre * AmmoniaMeaning.NitrogenOfAmmonium,
            AmmoniaForm.UnionisedAsAmmonia => Science
                .Water.Ammonia.AsNitrogen(said.Amount)
                .MilligramsPerLitre,
            _ => said.Amount.MilligramsPerLitre,
        };
        var near = told.Where(read => (read.When < at ? at - read.When : read.When - at) <= SameDay).ToList();
        double? acidity = near.Where(read => read.Fact.Value is { Unit: "[pH]", Value: >= 0 and <= 14 })
            .Select(read => (double?)read.Fact.Value.Value)
            .Max();
        var limit = poison;
        if (isTotal)
        {
            limit = _span.Profile.Find("total-ammonia-nitrogen-limit")?.High;
            if (acidity is { } ph && poison is { } most)
            {
                var warm = near.Select(read => read.Fact.Value.AsTemperature())
                    .OfType<Temperature>()
                    .ToList();
                var share = AmmoniaMeaning
                    .Share(
                        new(
                            ph,
                            AcidityScale.Nbs,
                            _span.Profile.LarvalSalinityTarget,
                            warm.Count > 0 ? warm[0] : Temperature.FromCelsius(25)
                        )
                    )
                    .Value.Value;
                limit = share > 0 ? most / share : null;
            }
        }

        var (_, _, sd) = Usual(LimitedQuantity.UnionisedAmmonia, VesselQuantity.Tan, value);
        return new(stay.Vessel.Id, at, LimitedQuantity.UnionisedAmmonia, value, sd, null, limit);
    }

    // Total ammonia is what kits show: the least that any of the readings was held against, or the total of the profile.
    private double? AmmoniaLimit(List<WaterReading> read) =>
        read.Min(reading => reading.High) ?? _span.Profile.Find("total-ammonia-nitrogen-limit")?.High;

    private double? Limit(LimitedQuantity quantity, bool isUpper)
    {
        if (quantity is LimitedQuantity.Salinity)
        {
            var band = _span.Profile.LarvalSalinityBand;
            return isUpper ? band.High.Practical : band.Low.Practical;
        }

        return _limits
            .Where(limit => limit.Quantity == quantity && limit.IsUpper == isUpper && !limit.IsDanger)
            .Select(limit => (double?)limit.Value)
            .FirstOrDefault();
    }

    private ReviewedFood FoodOf(VesselTime stay)
    {
        var fed = _span
            .Facts<VesselFed>(stay.Vessel.Id, stay.From, stay.Until)
            .Where(told => told.Fact.Vessel == stay.Vessel.Id)
            .ToList();
        var looks =
            _span.Facts<CellsCounted>(stay.Vessel.Id, stay.From, stay.Until).Count()
            + _span.Facts<VesselLookedAt>(stay.Vessel.Id, stay.From, stay.Until).Count();
        return new(
            stay.Vessel.Id,
            fed.Count,
            fed.Count > 0 ? (fed[0].When - stay.From).TotalHours : null,
            GapDays(fed.Select(told => told.When), stay.From, stay.Until),
            [.. fed.Select(told => told.Fact.Food).Distinct().Order()],
            looks
        );
    }
}
