using Broodtide.Domain;
using Broodtide.Domain.Broods;
using Broodtide.Science.Development;
using Broodtide.Workbench.Hatching;
using NodaTime;

namespace Broodtide.Workbench.TideLine;

/// <summary>The nights of hatching from a forecast or from what was seen.</summary>
public static class TideNightsOf
{
    // A night below one in two thousand is no column in any picture.
    private const double Least = 0.0005;

    /// <summary>The small picture of a brood's nights; none where nothing is foretold any more.</summary>
    public static HatchNightsRecord? Brood(Outlook outlook, BroodId brood)
    {
        var view = outlook.House.Brood(brood);
        if (view.FirstLarvae is not null || outlook.ForecastOf(brood) is not { } forecast)
        {
            return null;
        }

        return new(
            [.. forecast.Nights.Select(night => new TideNight(night.Evening, night.Chance.Value, null))],
            forecast.Isolation.Code is IsolationCode.IsolateNow or IsolationCode.IsolateOn
                ? forecast.Isolation.Evening
                : null,
            DayAxis.EveningOf(outlook.Now, outlook.Zone)
        );
    }

    internal static IReadOnlyList<TideNight> Nights(Brood brood, BroodForecast? forecast, DateTimeZone zone)
    {
        var collected = brood
            .Gatherings.GroupBy(gathering => DayAxis.EveningOf(gathering.When.Latest, zone))
            .ToDictionary(
                night => night.Key,
                night =>
                    (int)Math.Min(int.MaxValue, night.Sum(gathering => (long)(gathering.Made.Number ?? 0)))
            );
        if (collected.Count > 0)
        {
            return
            [
                .. collected
                    .OrderBy(night => night.Key)
                    .Select(night => new TideNight(night.Key, 1, night.Value)),
            ];
        }

        return forecast is null
            ? []
            :
            [
                .. forecast
                    .Nights.Where(night => night.Chance.Value >= Least)
                    .Select(night => new TideNight(night.Evening, night.Chance.Value, null)),
            ];
    }
}
