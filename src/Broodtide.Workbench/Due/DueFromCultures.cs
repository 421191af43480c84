using Broodtide.Domain.Journal;
using Broodtide.Units;
using Broodtide.Workbench.Feeding;
using Broodtide.Workbench.Planning;
using NodaTime;

namespace Broodtide.Workbench.Due;

/// <summary>What the cultures ask for: a count, a harvest, or help before they crash.</summary>
internal static class DueFromCultures
{
    private static readonly Duration CountSlips = Duration.FromDays(3);
    private static readonly Duration HarvestSlips = Duration.FromDays(1);

    // Less than this is no harvest worth a pipette.
    private const double LeastLitres = 0.005;

    public static IEnumerable<PlannedAction> Of(CultureState culture, Instant now, DateTimeZone zone)
    {
        var about = Subject.Of(culture.Vessel);
        // A full culture asks for its harvest, which is due anyway.
        if (culture.Warnings.FirstOrDefault(told => told.Code is not "culture-full") is { } warning)
        {
            yield return new PlannedAction
            {
                Key = ActionKey.Of(ActionCodes.TendCulture, about, $"{warning.Code}.{culture.Counts.Count}"),
                Code = ActionCodes.TendCulture,
                About = about,
                From = now,
                By = now + HarvestSlips,
                SlipsUntil = now + HarvestSlips + HarvestSlips,
                Reason = warning,
                IfItSlips = new Remark("slip-culture-crashes"),
                Door = new(DoorCode.Culture, about),
            };
        }

        // Each count is a new occasion.
        yield return new PlannedAction
        {
            Key = ActionKey.Of(ActionCodes.CountCulture, about, $"{culture.Counts.Count}"),
            Code = ActionCodes.CountCulture,
            About = about,
            From = culture.NextCount,
            By = culture.NextCount + HarvestSlips,
            SlipsUntil = Instant.Max(now, culture.NextCount) + CountSlips,
            Reason =
                culture.IsFilm ? new Remark("due-look-at-film")
                : culture.Counts is [.., var last]
                    ? new Remark(
                        "due-count-culture",
                        new("last", last.At),
                        new("growthPercent", 100 * (Math.Exp(culture.RatePerDay.Middle) - 1))
                    )
                : new Remark("due-first-count"),
            IfItSlips = new Remark("slip-wider-growth"),
            Door = new(DoorCode.WriteCells, about),
        };
        if (culture.Harvest is { } harvest && harvest.Today.Litres >= LeastLitres)
        {
            yield return new PlannedAction
            {
                Key = ActionKey.Of(
                    ActionCodes.HarvestCulture,
                    about,
                    NodaTime.Text.LocalDatePattern.Iso.Format(now.InZone(zone).Date)
                ),
                Code = ActionCodes.HarvestCulture,
                About = about,
                From = now,
                By = now + HarvestSlips,
                SlipsUntil = now + HarvestSlips + HarvestSlips,
                Reason = new Remark(
                    "due-harvest-lasts",
                    new("lowPercent", 100 * harvest.LastingShare.Low),
                    new("highPercent", 100 * harvest.LastingShare.High)
                ),
                IfItSlips = new Remark("slip-culture-ages"),
                Amounts =
                [
                    new Remark(
                        "amount-harvest",
                        new("volumeLitres", CultureFigures.Few(harvest.Today.Litres)),
                        new("densityPerMillilitre", CultureFigures.Few(culture.Density.Middle))
                    ),
                ],
                Door = new(DoorCode.Culture, about),
            };
        }
    }
}
