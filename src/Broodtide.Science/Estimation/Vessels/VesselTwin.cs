using Broodtide.Science.Water;
using Broodtide.Units;

namespace Broodtide.Science.Estimation.Vessels;

/// <summary>
/// The twin of a vessel: water, algae, film, waste, nitrifiers, oxygen and pH as one coupled model, run by an ensemble.
/// <code>
/// var scene = new VesselScene { Site = site, Hours = hours, Events = events, WaterAtStart = water };
/// var start = VesselEnsemble.Draw(scene, new VesselStart(), VesselPriors.Usual, members: 200, seed: 1);
/// var day = VesselTwin.Forward(start, scene, hours: 24);              // traces of the day, and the ensemble at its end
/// var next = VesselTwin.Forward(day.End, scene, hours: 48);           // goes on where that ended, piece by piece
/// var what = VesselTwin.Forward(day.End, changedScene, hours: 48);    // member by member beside "as it is"
/// var oxygen = next.Traces.Quantiles(VesselQuantity.Oxygen, 48);      // 5, 50 and 95 % after 48 h
/// var danger = next.Traces.Crossing(VesselQuantity.UnionisedAmmonia, 0.05, above: true, 0, 48);
/// </code>
/// A scene may end later than what is run; the ensemble knows its hour and reads the scene from there. Equations, sources
/// and what is left out: docs/science/vessel-twin.md.
/// </summary>
public static class VesselTwin
{
    /// <summary>Runs the members on, with everything the scene tells of those hours.</summary>
    /// <param name="start">Members at an hour of the scene's clock.</param>
    /// <param name="scene">What is around the vessel and done to it; events before that hour are over.</param>
    /// <param name="hours">Hours to run, 1 or more; the scene must reach as far.</param>
    /// <param name="stepsPerHour">Steps in an hour, 1 to 60; one is fine enough for every printed digit.</param>
    /// <param name="hands">Who runs several parts of the members at the same time; one after another if left out. The same comes of it.</param>
    /// <returns>Traces at every hour, and the members at the end.</returns>
    /// <exception cref="ArgumentOutOfRangeException">
    /// The scene ends too early, holds no water, light below 0 or above <see cref="MostLightMicromoles"/>, larvae below 0,
    /// or a number is outside the limits.
    /// </exception>
    public static (VesselTraces Traces, VesselEnsemble End) Forward(
        VesselEnsemble start,
        VesselScene scene,
        int hours,
        int stepsPerHour = 1,
        IManyHands? hands = null
    )
    {
        ArgumentOutOfRangeException.ThrowIfLessThan(hours, 1);
        ArgumentOutOfRangeException.ThrowIfLessThan(stepsPerHour, 1);
        ArgumentOutOfRangeException.ThrowIfGreaterThan(stepsPerHour, 60);
        ArgumentOutOfRangeException.ThrowIfGreaterThan(hours, scene.Hours.Length - start.Hour);
        foreach (var hour in scene.Hours.AsSpan(start.Hour, hours))
        {
            Check(hour);
        }

        var traces = new VesselTraces(start.Hour, hours, start.Members);
        var by = hands ?? OneHand.Only;
        var parts = VesselPart.Of(start, by.Hands);
        var litres = new double[parts.Length];
        by.Do(parts.Length, part => litres[part] = Run(parts[part], start, scene, stepsPerHour, traces));
        return (
            traces,
            new(
                start.Priors,
                start.Members,
                start.Hour + hours,
                litres[0],
                VesselPart.Joined(parts, part => part.Stocks),
                VesselPart.Joined(parts, part => part.Parameters),
                start.Seed
            )
        );
    }

    // Runs some of the members and tells the litres at the end, which are the same for all.
    private static double Run(
        VesselPart members,
        VesselEnsemble start,
        VesselScene scene,
        int stepsPerHour,
        VesselTraces traces
    )
    {
        var events = scene
            .Events.Where(done => done.Hour >= start.Hour && done.Hour < start.Hour + traces.Hours)
            .OrderBy(done => done.Hour)
            .ToList();
        var next = 0;
        var (stocks, parameters, litres) = (members.Stocks, members.Parameters, start.Litres);
        for (var i = 0; i < traces.Hours; i++)
        {
            var hour = scene.Hours[start.Hour + i];
            if (start.Hour + i > 0 && (start.Hour + i) % DayDrift.Hours == 0)
            {
                DayDrift.Take(members, start.Priors, start.Seed, (start.Hour + i) / DayDrift.Hours);
            }

            if (i == 0)
            {
                Keep(0, hour);
            }

            for (; next < events.Count && events[next].Hour == start.Hour + i; next++)
            {
                litres = VesselEvents.Do(events[next], stocks, parameters, litres, hour);
            }

            var terms = new HourTerms(scene, hour, litres, stepsPerHour);
            for (var step = 0; step < stepsPerHour; step++)
            {
                VesselStep.Take(in terms, stocks, parameters);
            }

            Thicken(stocks, litres / hour.Water.Litres);
            litres = hour.Water.Litres;
            Keep(i + 1, hour);
        }

        return litres;

        void Keep(int place, VesselHour hour) =>
            traces.Keep(
                place,
                members,
                new(hour.Salinity, hour.Temperature),
                scene.Site.WallSquareCentimetresPerLitre,
                AmmoniaDissociation.Hampson(hour.Salinity, hour.Temperature).Value
            );
    }

    /// <summary>Brightest light that is taken: above the sun at noon, 2500 umol/(m2 s).</summary>
    public const double MostLightMicromoles = 2500;

    private static void Check(VesselHour hour)
    {
        Finite.Positive(hour.Water.Litres, nameof(hour.Water));
        Finite.Within(hour.LightMicromoles, 0, MostLightMicromoles, nameof(hour.LightMicromoles));
        Finite.NotNegative(hour.Larvae.Low, nameof(hour.Larvae));
        Finite.Within(hour.LarvaDryMicrograms, 0, 1e6, nameof(hour.LarvaDryMicrograms));
    }

    private static void Thicken(double[][] stocks, double factor)
    {
        for (var stock = 0; factor != 1 && stock < Stock.Dissolved; stock++)
        {
            foreach (ref var held in stocks[stock].AsSpan())
            {
                held *= factor;
            }
        }
    }
}
