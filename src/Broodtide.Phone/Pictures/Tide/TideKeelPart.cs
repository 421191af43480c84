using Broodtide.Workbench.TideLine;
using NodaTime;

namespace Broodtide.Phone.Pictures;

/// <summary>The keel: how many are alive, hung under the line. Filled where sure, hatched where forecast or in doubt.</summary>
internal static class TideKeelPart
{
    private const int MostPoints = 400;
    private const double LeastWidth = 3;
    private static readonly Duration LongestSilence = Duration.FromDays(3);

    /// <summary>The rows the keel is drawn from: those of the main vessel, or those of all together.</summary>
    public static IReadOnlyList<TideRow> RowsOf(TideScene scene) =>
        scene.Main is { Alive.Count: > 0 } main ? main.Alive : scene.Record.Alive;

    public static bool IsRough(TideScene scene) =>
        scene.Record.AliveIsRough || (scene.Main is { Alive.Count: > 0, AliveIsRough: true });

    public static void Draw(TideScene scene)
    {
        var rows = RowsOf(scene);
        if (rows.Count == 0 || scene.Main is not { } vessel)
        {
            return;
        }

        var from = Instant.Max(rows[0].At, scene.View.From);
        var to = Instant.Min(
            scene.View.To,
            scene.IsEnded ? scene.PastEnd : Instant.Max(rows[^1].At, scene.Record.Now)
        );
        var now = scene.IsEnded ? to : scene.Record.Now;
        foreach (var (start, end, isSure) in Pieces(scene, from, Instant.Min(now, to)))
        {
            Piece(scene, vessel, rows, start, end, isSure, true);
        }

        if (to > now)
        {
            Piece(scene, vessel, rows, Instant.Max(now, from), to, false, false);
        }
    }

    private static IEnumerable<(Instant Start, Instant End, bool IsSure)> Pieces(
        TideScene scene,
        Instant from,
        Instant to
    )
    {
        if (from >= to)
        {
            yield break;
        }

        var at = from;
        var heard = from;
        foreach (
            var next in scene
                .Record.Entries.Select(entry => entry.At)
                .Where(one => one > from && one < to)
                .Order()
                .Append(to)
        )
        {
            if (next - heard > LongestSilence && scene.Record.Entries.Count > 0)
            {
                if (heard > at)
                {
                    yield return (at, heard, true);
                }

                yield return (heard, next, false);
                at = next;
            }

            heard = next;
        }

        if (to > at)
        {
            yield return (at, to, true);
        }
    }

    private static void Piece(
        TideScene scene,
        TideVessel vessel,
        IReadOnlyList<TideRow> rows,
        Instant from,
        Instant to,
        bool isSure,
        bool isPast
    )
    {
        if (from >= to)
        {
            return;
        }

        var edge = Edge(scene, vessel, rows, from, to);
        // A keel that began just now is still seen.
        var isNarrow = isPast && scene.X(to) - scene.X(from) < LeastWidth;
        double At(EdgeRow row) => isNarrow && row.At < to ? scene.X(to) - LeastWidth : scene.X(row.At);
        IReadOnlyList<(double X, double Y)> Points(Func<EdgeRow, double> depth) =>
            Thinning.To(MostPoints, [.. edge.Select(row => (Inside(scene, At(row)), row.Top + depth(row)))]);
        var top = Points(static _ => 0).Reverse().ToList();
        var sure = Points(row => row.Low * scene.PxPerLarva);
        var middle = Points(row => row.Middle * scene.PxPerLarva);
        var outer = Points(row => row.High * scene.PxPerLarva);
        var hasSure = edge.Exists(row => row.Low * scene.PxPerLarva > 0.05);
        if (isSure)
        {
            scene.Add(
                new PathShape(
                    "pic-keel-95",
                    new PathPen().Through(outer).Through(top, goOn: true).Close().ToString()
                )
            );
        }
        else
        {
            scene.Add(new PathShape("pic-keel-95 pic-far", new PathPen().Through(outer).ToString()));
        }

        if (hasSure)
        {
            var data = new PathPen().Through(sure).Through(top, goOn: true).Close().ToString();
            scene.Add(
                isSure ? new PathShape("pic-sure", data) : new PathShape("pic-plain", data, Hatch.Keel)
            );
        }

        if (!IsRough(scene))
        {
            scene.Add(
                new PathShape(
                    isSure ? "pic-keel-50" : "pic-keel-50 pic-far",
                    new PathPen().Through(middle).ToString()
                )
            );
        }
    }

    private static double Inside(TideScene scene, double x) => Math.Clamp(x, 0, scene.Width);

    private static List<EdgeRow> Edge(
        TideScene scene,
        TideVessel vessel,
        IReadOnlyList<TideRow> rows,
        Instant from,
        Instant to
    )
    {
        var edge = new List<EdgeRow>();
        void Put(Instant at, Broodtide.Units.Interval value) =>
            edge.Add(new(at, scene.Calm(vessel, at), value.Low, value.Middle, value.High));
        Put(from, TideTrack.At(rows, from)!.Value);
        var fill = from + FillStep(scene);
        foreach (var row in rows.Where(row => row.At > from && row.At < to))
        {
            for (; fill < row.At; fill += FillStep(scene))
            {
                Put(fill, TideTrack.At(rows, fill)!.Value);
            }

            Put(row.At, row.Value);
        }

        for (; fill < to; fill += FillStep(scene))
        {
            Put(fill, TideTrack.At(rows, fill)!.Value);
        }

        // Just before the end, so that a step there belongs to the next piece.
        var last = TideTrack.At(rows, to - Duration.Epsilon)!.Value;
        Put(to, last);
        return edge;
    }

    private static Duration FillStep(TideScene scene) =>
        (scene.View.To - scene.View.From) / Math.Max(40, scene.Width / 6);

    private sealed record EdgeRow(Instant At, double Top, double Low, double Middle, double High);
}
