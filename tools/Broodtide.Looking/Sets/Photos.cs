using Broodtide.Science.Imaging.Spots;

namespace Broodtide.Looking.Sets;

/// <summary>Real micrographs, one photo each: nuclei bright on dark.</summary>
public static class Photos
{
    public const string Folder = "nuclei_bright_on_dark";

    public static void Print(string folder) =>
        Board.Print($"{Folder} (real), one photo each", [.. Scenes.Photos(folder).Select(Counted)]);

    /// <summary>The first frame alone.</summary>
    public static Line Counted(Scene scene)
    {
        var frame = scene.Frames[0];
        var (grey, shape) = Pictures.Grey(frame.Path);
        var count = PhotoSpots.Count(grey, shape);
        return count.Succeeded
            ? new(
                scene.Name,
                scene.Count,
                count.Value.Number,
                Matching.F1(frame.Spots, count.Value.Marks),
                Board.IsFarOff(scene.Count, count.Value.Marks.Count) ? 1 : 0,
                string.Join("; ", count.Value.Remarks)
            )
            : Line.Refused(scene, 1, count.Reason);
    }
}
