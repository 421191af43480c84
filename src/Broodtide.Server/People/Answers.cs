using System.Text.Json;
using System.Text.Json.Serialization.Metadata;
using Broodtide.Workbench.People;

namespace Broodtide.Server.People;

/// <summary>What endpoints answer and read: small JSON bodies, and refusals by code.</summary>
internal static class Answers
{
    // A passphrase of the greatest length, and room to spare.
    private const int LongestBody = 16 * 1024;

    public static IResult Ok<T>(T value, JsonTypeInfo<T> shape) => Results.Json(value, shape);

    public static IResult No(int status, string code, int? number = null) =>
        Results.Json(new Refused(code, number), PeopleJson.Default.Refused, statusCode: status);

    public static IResult No(Units.Remark remark) =>
        No(
            StatusCodes.Status400BadRequest,
            remark.Code,
            remark.Arguments is [{ Value: int number }, ..] ? number : null
        );

    public static IResult BodyWrong => No(StatusCodes.Status400BadRequest, "body-wrong");

    /// <summary>A refusal from outside an endpoint.</summary>
    public static Task RefuseAsync(this HttpContext context, int status, string code, int? number = null) =>
        No(status, code, number).ExecuteAsync(context);

    /// <summary>The body; none where it is not what it should be.</summary>
    public static async Task<T?> ReadAsync<T>(this HttpRequest request, JsonTypeInfo<T> shape)
        where T : class
    {
        if (!request.HasJsonContentType() || request.ContentLength is null or > LongestBody)
        {
            return null;
        }

        try
        {
            return await JsonSerializer.DeserializeAsync(
                request.Body,
                shape,
                request.HttpContext.RequestAborted
            );
        }
        catch (JsonException)
        {
            return null;
        }
    }
}
