using Broodtide.Photos;
using Broodtide.Scenes;
using Broodtide.Science.Imaging;
using Broodtide.Science.Imaging.Spots;

namespace Broodtide.Looking.Stress;

/// <summary>Invents a scene, takes its frames as JPEG files, reads them again and counts.</summary>
public static class Counting
{
    public static (Outcome Burst, Outcome? Photo) Of(int seed, int index, bool hasPhoto)
    {
        var scene = new InventedScene(seed, index);
        var painter = new Painter(scene);
        var frames = Enumerable.Range(0, scene.Poses.Count).Select(painter.Frame).ToList();
        var greys = frames.ConvertAll(frame =>
            PictureFile.Decode(JpegFile.Encode(frame, scene.Facts.JpegQuality)).Value.ToGrey()
        );
        var truths = frames.ConvertAll(frame =>
            frame.Truth.Select(place => new TrueSpot(place.X, place.Y, (place.Length / 2) + 2)).ToList()
        );
        var shape = new GridShape(scene.Width, scene.Height);
        return (
            Burst(scene.Facts, greys, truths, shape),
            hasPhoto ? Photo(scene.Facts, greys[0], truths[0], shape) : null
        );
    }

    private static Outcome Burst(
        SceneFacts facts,
        List<float[]> greys,
        List<List<TrueSpot>> truths,
        GridShape shape
    )
    {
        var count = BurstSpots.Count(greys, shape);
        if (!count.Succeeded)
        {
            return new(facts, null, 0, greys.Count, 0, 0, count.Reason.Code, 0);
        }

        var used = count.Value.Frames.Where(frame => frame.IsUsed).ToList();
        return new(
            facts,
            count.Value.Number,
            count.Value.Frames.Select((frame, i) => Matching.F1(truths[i], frame.Marks)).Average(),
            greys.Count,
            greys.Count - used.Count,
            used.Count(frame => IsFarOff(facts, frame.Marks.Count)),
            string.Join(' ', count.Value.Remarks.Select(remark => remark.Code)),
            used.Count > 0 ? used.Average(frame => frame.Marks.Count) : 0
        );
    }

    private static Outcome Photo(SceneFacts facts, float[] grey, List<TrueSpot> truth, GridShape shape)
    {
        var count = PhotoSpots.Count(grey, shape);
        return count.Succeeded
            ? new(
                facts,
                count.Value.Number,
                Matching.F1(truth, count.Value.Marks),
                1,
                0,
                IsFarOff(facts, count.Value.Marks.Count) ? 1 : 0,
                string.Join(' ', count.Value.Remarks.Select(remark => remark.Code)),
                count.Value.Marks.Count
            )
            : new(facts, null, 0, 1, 0, 0, count.Reason.Code, 0);
    }

    private static bool IsFarOff(SceneFacts facts, int marks) =>
        facts.Number > 0 && Board.IsFarOff(facts.Number, marks);
}
