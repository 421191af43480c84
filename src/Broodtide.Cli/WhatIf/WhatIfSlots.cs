using System.Globalization;
using Broodtide.Cli.Door;
using Broodtide.Cli.Water;
using Broodtide.Domain.Journal;
using Broodtide.Science.Estimation.Vessels;
using Broodtide.Units;
using Broodtide.Workbench.Mixing;
using Broodtide.Workbench.WhatIf;

namespace Broodtide.Cli.WhatIf;

/// <summary>How much air is tried.</summary>
internal enum AirWord
{
    None,
    Gentle,
    Strong,
}

/// <summary>What dry food is tried.</summary>
internal enum FoodWord
{
    Yeast,
    Powder,
}

/// <summary>The options of a question, and the changes they stand for.</summary>
internal sealed class WhatIfSlots
{
    private const double Everything = 100;

    // Protein of larval powders, 40 to 60 % (common practice, no source).
    private const double PowderProtein = 0.5;

    // Salinity typed as specific gravity or conductivity is turned at this temperature.
    private const double UsualCelsius = 25;

    private readonly Slot _salinity = Slot.Option("--salinity", "Another salinity.", "SALINITY");
    private readonly Slot _temperature = Slot.Option("--temperature", "Another temperature.", "TEMPERATURE");
    private readonly Slot _over = Slot.Option(
        "--over",
        "Salinity and temperature over so many days; at once if left out.",
        "DAYS"
    );
    private readonly Slot _light = Slot.Option("--light", "Hours of light a day; 0 for none.", "HOURS");
    private readonly Slot _bright = Slot.Option(
        "--bright",
        "How bright, umol/m2/s; as it is if left out.",
        "NUMBER"
    );
    private readonly Slot _feed = Slot.Option(
        "--feed",
        "How many times as much of the same food: twice, half, none or a number.",
        "TIMES"
    );
    private readonly Slot _feedDays = Slot.Option(
        "--feed-days",
        "That food for so many days; for good if left out.",
        "DAYS"
    );
    private readonly Slot _food = Slot.Option(
        "--food",
        "Dry food each day in place of what is fed, such as 20 mg.",
        "MASS"
    );
    private readonly Slot _foodKind = Slot.Option(
        "--food-kind",
        "What food: yeast (if left out) or powder.",
        "KIND"
    );
    private readonly Slot _algae = Slot.Option(
        "--algae",
        "Algae each day in place of what is fed, cells for each mL of the vessel.",
        "CELLS"
    );
    private readonly Slot _larvae = Slot.Option(
        "--larvae",
        "Another number of larvae: twice, half or a number.",
        "NUMBER"
    );
    private readonly Slot _split = Slot.Flag(
        "--split",
        "Half of the water and of the larvae into a second vessel like it."
    );
    private readonly Slot _air = Slot.Option("--air", "Air: none, gentle or strong.", "AIR");
    private readonly Slot _change = Slot.Option(
        "--change",
        "Share of the water changed, per cent.",
        "PERCENT"
    );
    private readonly Slot _every = Slot.Option(
        "--every",
        "Water changed every so many days; once if left out.",
        "DAYS"
    );
    private readonly Slot _skip = Slot.Option(
        "--skip",
        "Nobody comes for so many days: no food, no top-up, no change of water.",
        "DAYS"
    );
    private readonly Slot _siphon = Slot.Option(
        "--siphon",
        "Share of what has settled, per cent.",
        "PERCENT"
    );

    public IReadOnlyList<Slot> All =>
        [
            _salinity,
            _temperature,
            _over,
            _light,
            _bright,
            _feed,
            _feedDays,
            _food,
            _foodKind,
            _algae,
            _larvae,
            _split,
            _air,
            _change,
            _every,
            _skip,
            _siphon,
        ];

    public IReadOnlyList<WhatIfChange> Read(Said said) => [.. Changes(said).OfType<WhatIfChange>()];

    private IEnumerable<WhatIfChange?> Changes(Said said)
    {
        var over = said.Count(_over) ?? 0;
        if (said.Salinity(_salinity) is { } salt)
        {
            yield return WaterText.Salinity(
                said,
                salt,
                _salinity.Name,
                Temperature.FromCelsius(UsualCelsius),
                SaltProduct.Unmeasured
            )
                is { } to
                ? new WhatIfChange.SalinityTo(to.Practical, over)
                : null;
        }

        if (said.Text(_temperature) is not null && said.Degrees(_temperature) is { } warm)
        {
            yield return new WhatIfChange.TemperatureTo(warm.Celsius, over);
        }

        if (said.Number(_light) is { } hours)
        {
            yield return new WhatIfChange.LightFor(hours, said.Number(_bright));
        }

        if (Times(said, _feed) is { } feed)
        {
            yield return new WhatIfChange.FeedTimes(feed, said.Count(_feedDays));
        }

        if (said.Amount(_food, Dimension.Mass).AsMass() is { } food)
        {
            yield return new WhatIfChange.FoodEachDay(
                food.Milligrams,
                said.Member<FoodWord>(_foodKind) is FoodWord.Powder
                    ? FeedComposition.Powder(Probability.FromFraction(PowderProtein))
                    : FeedComposition.Yeast
            );
        }

        if (said.Number(_algae) is { } cells)
        {
            yield return new WhatIfChange.AlgaeEachDay(cells);
        }

        if (said.Text(_larvae) is { } larvae)
        {
            yield return char.IsDigit(larvae.FirstOrDefault())
                ? said.Number(_larvae) is { } number
                    ? new WhatIfChange.LarvaeNumber(number)
                    : null
                : Times(said, _larvae) is { } times
                    ? new WhatIfChange.LarvaeTimes(times)
                    : null;
        }

        if (said.Flag(_split))
        {
            yield return new WhatIfChange.Split();
        }

        if (said.Member<AirWord>(_air) is { } air)
        {
            yield return new WhatIfChange.AirSet(
                air switch
                {
                    AirWord.None => AirFlow.None,
                    AirWord.Gentle => AirFlow.Gentle,
                    _ => AirFlow.Strong,
                }
            );
        }

        if (Percent(said, _change) is { } share)
        {
            yield return new WhatIfChange.WaterChanged(share, said.Count(_every) ?? 0);
        }

        if (said.Count(_skip) is { } skip)
        {
            yield return new WhatIfChange.Skipped(skip);
        }

        if (Percent(said, _siphon) is { } siphoned)
        {
            yield return new WhatIfChange.Siphoned(siphoned);
        }
    }

    private static double? Times(Said said, Slot slot) =>
        said.Text(slot)?.ToLower(CultureInfo.InvariantCulture) switch
        {
            null => null,
            "none" or "no" => 0,
            "half" => 0.5,
            "twice" or "double" => 2,
            _ => said.Number(slot),
        };

    private static double? Percent(Said said, Slot slot) =>
        said.Amount(slot, Dimension.Share, "%") is { } typed ? typed.Value / Everything : null;
}
