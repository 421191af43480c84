using Broodtide.Workbench.TideLine;
using NodaTime;

namespace Broodtide.Phone.Pictures;

/// <summary>The brood in fresh water: the nights, the line, its marks.</summary>
internal static class TideBroodPart
{
    private const double LeastColumn = 3;
    private const double ShareOfNight = 0.62;
    private const double LeastDoubt = 6;
    private const double TickHeight = 8;

    public static void Nights(TideScene scene)
    {
        Group(scene, [.. scene.Record.Nights.Where(night => night.Collected is not null)], true);
        Group(scene, [.. scene.Record.Nights.Where(night => night.Collected is null)], false);
    }

    public static void Line(TideScene scene)
    {
        var y = scene.Sizes.FreshY;
        if (Span(scene) is not var (from, to, planned))
        {
            return;
        }

        var left = Math.Clamp(from, 0, scene.Width);
        var past = Math.Min(to, scene.NowX);
        if (past > left)
        {
            scene.Add(new PathShape("pic-line", new PathPen().Move(left, y).Line(past, y).ToString()));
        }

        var start = Math.Max(scene.NowX, left);
        if (scene.HasFuture && planned > start && start < scene.Width)
        {
            var end = Math.Min(planned, scene.Width);
            scene.Add(
                new PathShape("pic-line pic-far", new PathPen().Move(start, y).Line(end, y).ToString())
            );
        }

        Marks(scene);
    }

    /// <summary>Where a mark's tick stands.</summary>
    public static double TickX(TideScene scene, TideMark mark) =>
        Math.Clamp((scene.X(mark.From) + scene.X(mark.To)) / 2, 1, scene.Width - 1);

    private static void Marks(TideScene scene)
    {
        var y = scene.Sizes.FreshY;
        var pen = new PathPen();
        foreach (var mark in scene.Record.Brood.Marks.Where(mark => scene.InView(mark.To)))
        {
            var x = TickX(scene, mark);
            var wide = scene.X(mark.To) - scene.X(mark.From);
            if (wide >= LeastDoubt && !scene.Frame.Small)
            {
                var left = Math.Max(0, scene.X(mark.From));
                var right = Math.Min(scene.Width, scene.X(mark.To));
                scene.Add(new BoxShape("pic-doubt", new(left, y - TickHeight, right, y - 2)));
            }
            else
            {
                pen.Move(x, y + 3).Line(x, y - (scene.Frame.Small ? 5 : TickHeight));
            }

            scene.Targets.Add(
                new(
                    1,
                    x,
                    y - TickHeight,
                    mark.From,
                    scene.Text.Mark(mark.Kind),
                    scene.Text.Span(scene, mark.From, mark.To)
                )
            );
        }

        if (!pen.IsEmpty)
        {
            scene.Add(new PathShape("pic-tick", pen.ToString()));
        }
    }

    private static (double From, double To, double Planned)? Span(TideScene scene)
    {
        var record = scene.Record;
        var feet = record.Crossings.Select(crossing => scene.X(crossing.At) - scene.Sizes.Dive).ToList();
        double? from =
            record.Brood.FirstSeenBerried is { } berried ? scene.X(berried)
            : feet.Count > 0 ? feet.Min() - 24
            : null;
        if (from is not { } left)
        {
            return null;
        }

        var collected = record
            .Nights.Where(night => night.Collected is not null)
            .Select(night => scene.X(Midnight(scene, night)));
        var ends = feet.Concat(collected).ToList();
        var lostInFresh = record.Ends.Where(end => feet.Count == 0).Select(end => scene.X(end.At));
        double to =
            scene.IsEnded && feet.Count == 0 ? lostInFresh.Max()
            : record.Brood.LastSeenCarrying is { } carrying
                ? Math.Max(scene.X(carrying), ends.DefaultIfEmpty(0).Max())
            : ends.Count > 0 ? ends.Max()
            : scene.X(record.Now);
        var nights = record
            .Nights.Where(night => night.Collected is null)
            .Select(night => scene.X(Midnight(scene, night)));
        var planned = record.Hatch is { } hatch ? scene.X(hatch.Late) : nights.DefaultIfEmpty(to).Max();
        return (left, Math.Max(left, to), feet.Count == 0 ? planned : to);
    }

    private static Instant Midnight(TideScene scene, TideNight night) =>
        scene.Record.Zone.AtStartOfDay(night.Evening.PlusDays(1)).ToInstant();

    private static void Group(TideScene scene, List<TideNight> nights, bool seen)
    {
        var most = nights.Select(Size).DefaultIfEmpty(0).Max();
        if (most <= 0)
        {
            return;
        }

        var floor = scene.Sizes.FreshY - 2;
        var night = scene.X(scene.View.From + Duration.FromDays(1));
        var wide = Math.Max(LeastColumn, night * ShareOfNight);
        var hill = new List<(double X, double Y)>();
        foreach (var one in nights)
        {
            var x = scene.X(Midnight(scene, one));
            var height = Size(one) / most * scene.Sizes.Night;
            if (x < -night || x > scene.Width + night || height < 0.4)
            {
                continue;
            }

            var left = Math.Clamp(x - (wide / 2), 0, scene.Width);
            var right = Math.Clamp(x + (wide / 2), 0, scene.Width);
            var column = new Box(left, floor - height, right, floor);
            scene.Obstacles.Add(column);
            scene.Targets.Add(
                new(
                    1,
                    x,
                    floor - (height / 2),
                    Midnight(scene, one),
                    scene.Text.NightTitle(one),
                    scene.Text.NightDetail(one)
                )
            );
            if (night >= LeastColumn)
            {
                scene.Add(
                    seen ? new BoxShape("pic-sure", column) : new BoxShape("pic-chance", column, Hatch.Keel)
                );
            }

            hill.Add((Math.Clamp(x, 0, scene.Width), floor - height));
        }

        if (night < LeastColumn && hill.Count > 0)
        {
            var pen = new PathPen()
                .Move(hill[0].X, floor)
                .Through(hill, goOn: true)
                .Line(hill[^1].X, floor)
                .Close();
            scene.Add(
                seen
                    ? new PathShape("pic-sure", pen.ToString())
                    : new PathShape("pic-chance", pen.ToString(), Hatch.Keel)
            );
        }
    }

    private static double Size(TideNight night) => night.Collected ?? night.Chance;
}
