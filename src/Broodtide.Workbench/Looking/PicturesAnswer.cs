using System.Text.Json;
using System.Text.Json.Serialization;
using Broodtide.Science.Imaging.Spots;
using Broodtide.Units;

namespace Broodtide.Workbench.Looking;

/// <summary>A count in pictures as the server sends it to a phone.</summary>
public static class PicturesAnswer
{
    /// <summary>Where a server counts.</summary>
    public const string Path = "api/looking/count";

    /// <summary>The most bytes of all pictures of one count together.</summary>
    public const int MostBytes = 120_000_000;

    /// <summary>The answer as it is sent: a count, or why there is none.</summary>
    public static byte[] Write(Parsed<PicturesCounted> count) =>
        JsonSerializer.SerializeToUtf8Bytes(
            count.Succeeded
                ? new AnswerJson(
                    [count.Value.Number.Low, count.Value.Number.Middle, count.Value.Number.High],
                    count.Value.ShareHidden,
                    [
                        .. count.Value.Frames.Select(frame => new FrameJson(
                            frame.IsUsed,
                            [.. frame.Marks.SelectMany(mark => new[] { mark.X, mark.Y, mark.Area })]
                        )),
                    ],
                    [.. count.Value.Remarks.Select(Json)],
                    null
                )
                : new AnswerJson([], 0, [], [], Json(count.Reason)),
            PicturesAnswerJson.Default.AnswerJson
        );

    /// <summary>The answer as it was sent; none where the bytes hold no such answer.</summary>
    public static Parsed<PicturesCounted>? Read(ReadOnlySpan<byte> bytes)
    {
        try
        {
            var answer = JsonSerializer.Deserialize(bytes, PicturesAnswerJson.Default.AnswerJson);
            return answer switch
            {
                { Refused: { } reason } => Parsed<PicturesCounted>.No(Remark(reason)),
                { Number: [var low, var middle, var high], Frames.Count: > 0 }
                    when low >= 0 && low <= middle && middle <= high && double.IsFinite(high) =>
                    Parsed<PicturesCounted>.Of(
                        new(
                            Interval.FromPoints(low, middle, high),
                            Math.Clamp(answer.ShareHidden, 0, 1),
                            [
                                .. answer.Frames.Select(frame => new CountedFrame(
                                    Marks(frame.Marks),
                                    frame.IsUsed
                                )),
                            ],
                            [.. answer.Remarks.Select(Remark)]
                        )
                    ),
                _ => null,
            };
        }
        catch (JsonException)
        {
            return null;
        }
    }

    private static List<SpotMark> Marks(IReadOnlyList<double> numbers) =>
        [
            .. numbers
                .Chunk(3)
                .Where(mark => mark.Length == 3)
                .Select(mark => new SpotMark(mark[0], mark[1], mark[2])),
        ];

    private static RemarkJson Json(Remark remark) =>
        new(
            remark.Code,
            [
                .. remark.Arguments.Select(argument =>
                    argument.Value is IConvertible and not string and not bool
                        ? new ArgumentJson(
                            argument.Name,
                            Convert.ToDouble(
                                argument.Value,
                                System.Globalization.CultureInfo.InvariantCulture
                            ),
                            null
                        )
                        : new ArgumentJson(argument.Name, null, argument.Value.ToString())
                ),
            ]
        );

    private static Remark Remark(RemarkJson remark) =>
        new(
            remark.Code,
            [
                .. remark.Arguments.Select(argument => new Argument(
                    argument.Name,
                    argument.Number is { } number ? number : argument.Text ?? ""
                )),
            ]
        );
}

/// <summary>The answer in its written shape.</summary>
internal sealed record AnswerJson(
    IReadOnlyList<double> Number,
    double ShareHidden,
    IReadOnlyList<FrameJson> Frames,
    IReadOnlyList<RemarkJson> Remarks,
    RemarkJson? Refused
);

/// <summary>A frame: whether it was used, and across, down and area of each mark in a row.</summary>
internal sealed record FrameJson(bool IsUsed, IReadOnlyList<double> Marks);

/// <summary>A remark in its written shape.</summary>
internal sealed record RemarkJson(string Code, IReadOnlyList<ArgumentJson> Arguments);

/// <summary>An argument: a number or a text.</summary>
internal sealed record ArgumentJson(string Name, double? Number, string? Text);

/// <summary>How the answer is written.</summary>
[JsonSourceGenerationOptions(
    PropertyNamingPolicy = JsonKnownNamingPolicy.CamelCase,
    DefaultIgnoreCondition = JsonIgnoreCondition.WhenWritingNull,
    RespectNullableAnnotations = true
)]
[JsonSerializable(typeof(AnswerJson))]
internal sealed partial class PicturesAnswerJson : JsonSerializerContext;
