using Broodtide.Science.Imaging.Spots;

namespace Broodtide.Looking.Sets;

/// <summary>Invented scenes of larvae in a beam, five frames each; the first frame of each once more as a single photo.</summary>
public static class Bursts
{
    public const string Folder = "larvae_beam_SYNTHETIC";

    public static void Print(string folder)
    {
        var scenes = Scenes.Bursts(folder);
        Board.Print($"{Folder} (invented, no photographs), bursts", [.. scenes.Select(Counted)]);
        Board.Print(
            $"{Folder} (invented, no photographs), the first frame alone, as a single photo",
            [.. scenes.Select(Photos.Counted)]
        );
    }

    private static Line Counted(Scene scene)
    {
        var pictures = scene.Frames.Select(frame => Pictures.Grey(frame.Path)).ToList();
        var count = BurstSpots.Count([.. pictures.Select(picture => picture.Grey)], pictures[0].Shape);
        return count.Succeeded
            ? new(
                scene.Name,
                scene.Count,
                count.Value.Number,
                scene
                    .Frames.Zip(count.Value.Frames, (frame, found) => Matching.F1(frame.Spots, found.Marks))
                    .Average(),
                count.Value.Frames.Count(found => Board.IsFarOff(scene.Count, found.Marks.Count)),
                string.Join("; ", count.Value.Remarks)
            )
            : Line.Refused(scene, scene.Frames.Count, count.Reason);
    }
}
