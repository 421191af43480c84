using System.Globalization;
using System.Text;
using Broodtide.Domain.Larvae;
using Broodtide.Workbench.Photos;

namespace Broodtide.Workbench.Looking;

/// <summary>A count whose marks a person looked over or whose number is known, with the files that are at hand.</summary>
/// <param name="Seen">What the journal holds of it.</param>
/// <param name="Files">The bytes of each of its pictures; none where a file is not here.</param>
public sealed record LabelledCount(PicturesSeen Seen, IReadOnlyList<byte[]?> Files);

/// <summary>One file of the set.</summary>
/// <param name="Name">Its name in the folder, with a slash for a folder within.</param>
/// <param name="Bytes">What it holds.</param>
public sealed record SetFile(string Name, byte[] Bytes);

/// <summary>
/// Marked pictures as an open set that a keeper may give away: names are hashes, what is not the picture is left out once
/// more, and neither times, places, people nor the words of a keeper go along. Nothing is sent anywhere.
/// </summary>
public static class LabelledSet
{
    private const string ReadMe = """
        # Pictures of larvae with marks

        Pictures of larvae of freshwater shrimps in a keeper's container, with the marks of a program and of a person.
        The keeper who saved this set says that the pictures are their own, and gives pictures and marks away under CC0 1.0
        (https://creativecommons.org/publicdomain/zero/1.0/), as far as the law allows without any right kept.

        - `pictures/`: the files, named by the SHA-256 of their bytes. What a camera writes beside the picture (place, time,
          camera) is left out. What the picture itself shows is not: look at each before you pass it on.
        - `pictures.csv`: `scene` pictures of one count share a number; `frame` order taken, from 1; `sha256`, `file`;
          `across_px`, `down_px` pixels, turned upright as the orientation in the file says; `left_out` 1 where the program left
          the frame out of its number; `shown` 1 for the one that the marks are on; `setup` pictures from one container under
          one lamp share a number, 0 where nobody said.
        - `labels.csv`: `sha256` of the picture; `x_px`, `y_px` pixels from the middle of its top left pixel, right and down;
          `by` who marked: program, person, or both where the person marked before seeing the program's mark; `removed` 1 where
          a person took the program's mark away as no larva.
        - `counts.csv`: `scene`; `person` no, with-marks (a person corrected the program's marks) or before (a person marked
          before seeing them); `known` the number counted one by one where it is known, else empty; `at` where the program
          counted, `longest_side_px` pixels along the longer side of what it was given, `marked` its marks (of a burst the
          middle number of its frames), `low`, `middle`, `high` its 5, 50 and 95 % points of the number of larvae.

        Larvae that neither a program nor a person can see have no mark: the marks are no perfect truth.

        """;

    /// <summary>Whether a count is worth giving away: somebody looked, or the number is known.</summary>
    public static bool IsLabelled(PicturesSeen seen) =>
        seen.Person != PersonLooked.No || seen.Known is not null;

    /// <summary>The files of the set; counts whose marked picture is not here or cannot be stripped are left out.</summary>
    public static (IReadOnlyList<SetFile> Files, int Counts) Of(IReadOnlyList<LabelledCount> counts)
    {
        var files = new List<SetFile>();
        var pictures = new StringBuilder("scene,frame,sha256,file,across_px,down_px,left_out,shown,setup\n");
        var labels = new StringBuilder("sha256,x_px,y_px,by,removed\n");
        var numbers = new StringBuilder("scene,person,known,at,longest_side_px,marked,low,middle,high\n");
        var setups = new List<string>();
        var scene = 0;
        foreach (var count in counts)
        {
            var seen = count.Seen;
            var stripped = count.Files.Select(Stripped).ToList();
            if (!IsLabelled(seen) || seen.Shown >= stripped.Count || stripped[seen.Shown] is not { } shown)
            {
                continue;
            }

            scene++;
            for (var frame = 0; frame < stripped.Count; frame++)
            {
                if (stripped[frame] is { } taken)
                {
                    var name = $"pictures/{taken.Sha256}{PhotoFormats.EndingOf(taken.Look.Format)}";
                    if (!files.Exists(file => file.Name == name))
                    {
                        files.Add(new(name, taken.Bytes));
                    }

                    var picture = seen.Pictures[frame];
                    pictures.Append(
                        CultureInfo.InvariantCulture,
                        $"{scene},{frame + 1},{taken.Sha256},{name},{picture.Across},{picture.Down},{Yes(picture.LeftOut)},{Yes(frame == seen.Shown)},{Number(setups, seen.Setup)}\n"
                    );
                }
            }

            foreach (var mark in seen.Marks)
            {
                labels.Append(
                    CultureInfo.InvariantCulture,
                    $"{shown.Sha256},{mark.X},{mark.Y},{Word(mark.By ?? MarkedBy.Program)},{Yes(mark.Removed)}\n"
                );
            }

            foreach (var program in seen.Counts)
            {
                numbers.Append(
                    CultureInfo.InvariantCulture,
                    $"{scene},{Word(seen.Person)},{seen.Known},{Word(program.At)},{program.LongestSide},{program.Marked},{program.Low},{program.Middle},{program.High}\n"
                );
            }
        }

        files.Add(Text("pictures.csv", pictures.ToString()));
        files.Add(Text("labels.csv", labels.ToString()));
        files.Add(Text("counts.csv", numbers.ToString()));
        files.Add(Text("README.md", ReadMe));
        return (files, scene);
    }

    private static PhotoTaken? Stripped(byte[]? file) =>
        file is not null && PhotoIntake.Take(file) is { Succeeded: true } taken ? taken.Value : null;

    // A keeper's words may name a place or a person; a number tells as much.
    private static int Number(List<string> setups, string? setup)
    {
        if (setup is null)
        {
            return 0;
        }

        var at = setups.FindIndex(name =>
            string.Equals(name, setup.Trim(), StringComparison.OrdinalIgnoreCase)
        );
        if (at < 0)
        {
            setups.Add(setup.Trim());
            at = setups.Count - 1;
        }

        return at + 1;
    }

    private static int Yes(bool? told) => told is true ? 1 : 0;

    private static string Word<T>(T member)
        where T : struct, Enum =>
        System.Text.Json.JsonNamingPolicy.KebabCaseLower.ConvertName(member.ToString());

    private static SetFile Text(string name, string text) => new(name, Encoding.UTF8.GetBytes(text));
}
