using System.Net.Http.Headers;
using System.Text.Json;
using System.Text.Json.Serialization.Metadata;
using Broodtide.Workbench.People;
using Broodtide.Workbench.Sharing;

namespace Broodtide.Phone.People;

/// <summary>Speaks with the server of people: coming in, going out, and what the owner does. Refusals come as codes.</summary>
internal sealed class Entrance(HttpClient http, HouseWord word, SignedIn who, PersonalWays ways)
{
    private static readonly Refused Away = new("server-away");

    /// <summary>
    /// Whether this phone may share. The server is asked unless somebody is known to be in. None where it may, else
    /// how the meeting ends before it began.
    /// </summary>
    public async Task<Meeting?> LookAsync()
    {
        if (who.MayShare)
        {
            return null;
        }

        return await AskDoorAsync() is not null ? Meeting.Away
            : who.MayShare ? null
            : Meeting.Refused;
    }

    /// <summary>Asks the server who is in. The reason, where it could not be asked.</summary>
    public async Task<Refused?> AskDoorAsync()
    {
        var (door, no) = await ReadAsync(PeopleAddresses.Door, PeopleJson.Default.DoorSeen);
        if (door is not null)
        {
            who.Learn(door);
            await AgreeOnWaysAsync(door);
        }

        return no;
    }

    /// <summary>Tells the house how who is in likes to be shown things, if it does not know yet and can be reached.</summary>
    public async Task TellWaysAsync()
    {
        var told = ways.Here;
        if (
            ways.IsUntold
            && await DoAsync(PeopleAddresses.MyWays, told, PeopleJson.Default.WaysSeen) is null
            && told == ways.Here
        )
        {
            ways.Told();
        }
    }

    // What was chosen here and not told yet goes first: it is the later one.
    private async Task AgreeOnWaysAsync(DoorSeen door)
    {
        if (ways.IsUntold)
        {
            await TellWaysAsync();
        }
        else if (door is { Me: not null, Ways: { } chosen })
        {
            ways.Take(chosen);
        }
    }

    /// <summary>Comes in by a passphrase, a first code or an invitation.</summary>
    public async Task<Refused?> ComeInAsync<T>(string address, T asked, JsonTypeInfo<T> shape)
    {
        if (who.Standing is Standing.In)
        {
            await LeaveAsync();
        }

        if (await DoAsync(address, asked, shape) is { } no)
        {
            return no;
        }

        word.Forget();
        return await AskDoorAsync();
    }

    /// <summary>Signs out on this phone.</summary>
    public async Task<Refused?> LeaveAsync()
    {
        var no = await DoAsync(PeopleAddresses.SignOut);
        if (no is null)
        {
            word.Forget();
            who.WentOut();
        }

        return no;
    }

    /// <summary>Reads something, or tells why not.</summary>
    public async Task<(T? Read, Refused? No)> ReadAsync<T>(string address, JsonTypeInfo<T> shape)
        where T : class => await AnswerAsync(HttpMethod.Get, address, null, shape);

    /// <summary>Sends something and reads the answer, or tells why not.</summary>
    public async Task<(TOut? Read, Refused? No)> AskAsync<TIn, TOut>(
        string address,
        TIn asked,
        JsonTypeInfo<TIn> asks,
        JsonTypeInfo<TOut> answers
    )
        where TOut : class => await AnswerAsync(HttpMethod.Post, address, Body(asked, asks), answers);

    /// <summary>Has something done that says nothing back. The reason, where it was not done.</summary>
    public async Task<Refused?> DoAsync<T>(string address, T asked, JsonTypeInfo<T> shape) =>
        (await AnswerAsync<object>(HttpMethod.Post, address, Body(asked, shape), null)).No;

    /// <summary>Has something done that needs no more than its address.</summary>
    public async Task<Refused?> DoAsync(string address) =>
        (await AnswerAsync<object>(HttpMethod.Post, address, null, null)).No;

    private async Task<(T? Read, Refused? No)> AnswerAsync<T>(
        HttpMethod method,
        string address,
        HttpContent? body,
        JsonTypeInfo<T>? shape
    )
        where T : class
    {
        try
        {
            using var request = new HttpRequestMessage(method, address) { Content = body };
            using var answer = await http.SendAsync(request);
            var bytes = await answer.Content.ReadAsByteArrayAsync();
            return answer.IsSuccessStatusCode
                ? (shape is null ? null : JsonSerializer.Deserialize(bytes, shape), null)
                : (null, JsonSerializer.Deserialize(bytes, PeopleJson.Default.Refused));
        }
        catch (Exception away) when (away is HttpRequestException or OperationCanceledException)
        {
            return (null, Away);
        }
        catch (JsonException)
        {
            return (null, new Refused("answer-wrong"));
        }
    }

    // With its length said beforehand.
    private static ByteArrayContent Body<T>(T asked, JsonTypeInfo<T> shape)
    {
        var content = new ByteArrayContent(JsonSerializer.SerializeToUtf8Bytes(asked, shape));
        content.Headers.ContentType = new MediaTypeHeaderValue("application/json");
        return content;
    }
}
