using Broodtide.Science.Estimation.Vessels;
using Broodtide.Workbench.WhatIf;

namespace Broodtide.Phone.Pages.WhatIf;

/// <summary>What a keeper has chosen to try: one of a few for each kind, and what they come to.</summary>
internal sealed class WhatIfChoices
{
    /// <summary>The first of every kind: nothing changed.</summary>
    public const string AsItIs = "asItIs";

    private static readonly Dictionary<string, WhatIfChange> Named = new(StringComparer.Ordinal)
    {
        ["food.none"] = new WhatIfChange.FeedTimes(0),
        ["food.half"] = new WhatIfChange.FeedTimes(0.5),
        ["food.twice"] = new WhatIfChange.FeedTimes(2),
        ["light.none"] = new WhatIfChange.LightFor(0),
        ["light.8"] = new WhatIfChange.LightFor(8),
        ["light.16"] = new WhatIfChange.LightFor(16),
        ["light.24"] = new WhatIfChange.LightFor(24),
        ["away.2"] = new WhatIfChange.Skipped(2),
        ["away.4"] = new WhatIfChange.Skipped(4),
        ["away.7"] = new WhatIfChange.Skipped(7),
        ["water.once"] = new WhatIfChange.WaterChanged(0.3),
        ["water.third"] = new WhatIfChange.WaterChanged(0.2, 3),
        ["water.daily"] = new WhatIfChange.WaterChanged(0.1, 1),
        ["air.none"] = new WhatIfChange.AirSet(AirFlow.None),
        ["air.gentle"] = new WhatIfChange.AirSet(AirFlow.Gentle),
        ["air.strong"] = new WhatIfChange.AirSet(AirFlow.Strong),
        ["larvae.half"] = new WhatIfChange.LarvaeTimes(0.5),
        ["larvae.twice"] = new WhatIfChange.LarvaeTimes(2),
        ["split.two"] = new WhatIfChange.Split(),
        ["siphon.all"] = new WhatIfChange.Siphoned(0.7),
    };

    private readonly Dictionary<string, string> _chosen = new(StringComparer.Ordinal);

    /// <summary>Kinds most often asked for.</summary>
    public static IReadOnlyList<string> Usual { get; } = ["food", "light", "away"];

    /// <summary>The others.</summary>
    public static IReadOnlyList<string> More { get; } = ["water", "air", "larvae", "split", "siphon"];

    /// <summary>Salinity to try, ppt; none to leave it.</summary>
    public double? SalinityPpt { get; private set; }

    /// <summary>Warmth to try, degC; none to leave it.</summary>
    public double? Celsius { get; private set; }

    /// <summary>Whether salinity and warmth go by a step a day instead of at once.</summary>
    public bool Gently { get; set; } = true;

    /// <summary>What may be chosen of a kind, nothing changed first.</summary>
    public static IReadOnlyList<string> Of(string kind) =>
        [
            AsItIs,
            .. Named
                .Keys.Where(name => name.StartsWith(kind + ".", StringComparison.Ordinal))
                .Select(name => name[(kind.Length + 1)..]),
        ];

    /// <summary>What is chosen of a kind.</summary>
    public string Chosen(string kind) => _chosen.GetValueOrDefault(kind, AsItIs);

    public void Choose(string kind, string what) => _chosen[kind] = what;

    /// <summary>Moves the salinity to try by whole steps of 1 ppt.</summary>
    public void MoveSalinity(double now, int steps) =>
        SalinityPpt = Moved(SalinityPpt, now, steps, 0, WhatIfRules.MostSalinity);

    /// <summary>Moves the warmth to try by whole degrees.</summary>
    public void MoveWarmth(double now, int steps) =>
        Celsius = Moved(Celsius, now, steps, WhatIfRules.LeastCelsius, WhatIfRules.MostCelsius);

    /// <summary>The changes that are chosen.</summary>
    /// <param name="nowPpt">Salinity now.</param>
    /// <param name="nowCelsius">Warmth now.</param>
    /// <param name="days">Days ahead.</param>
    public IReadOnlyList<WhatIfChange> Changes(double nowPpt, double nowCelsius, int days)
    {
        var changes = new List<WhatIfChange>();
        if (SalinityPpt is { } ppt)
        {
            changes.Add(new WhatIfChange.SalinityTo(ppt, Over(ppt - nowPpt)));
        }

        if (Celsius is { } celsius)
        {
            changes.Add(new WhatIfChange.TemperatureTo(celsius, Over(celsius - nowCelsius)));
        }

        foreach (var kind in Usual.Concat(More))
        {
            if (Named.TryGetValue($"{kind}.{Chosen(kind)}", out var change))
            {
                changes.Add(change);
            }
        }

        return changes;

        int Over(double by) => Gently ? Math.Min(days, (int)Math.Ceiling(Math.Abs(by) - 1e-9)) : 0;
    }

    // The first tap goes to the next whole number, so that what is tried is easily said; back at the beginning is no change.
    private static double? Moved(double? tried, double now, int steps, double least, double most)
    {
        var start = tried ?? (steps > 0 ? Math.Floor(now) : Math.Ceiling(now));
        var next = Math.Clamp(start + steps, least, most);
        return Math.Abs(next - now) < 0.5 && tried is not null ? null : next;
    }
}
