using System.Net;
using System.Net.Http.Headers;
using System.Net.Http.Json;
using System.Text.Json.Serialization.Metadata;
using Broodtide.Workbench.People;

namespace Broodtide.Server.Tests.People;

/// <summary>A browser as the server sees it: cookies, and the word that a page of the house gets.</summary>
internal sealed class Guest(Uri address) : IDisposable
{
    private readonly HttpClient _http = new(
        new HttpClientHandler { CookieContainer = new CookieContainer(), AllowAutoRedirect = false }
    )
    {
        BaseAddress = address,
    };

    private static CancellationToken Stop => TestContext.Current.CancellationToken;

    public HttpRequestHeaders Headers => _http.DefaultRequestHeaders;

    public Task<HttpResponseMessage> Get(string path) =>
        _http.GetAsync(new Uri(path, UriKind.Relative), Stop);

    public async Task<T> Reads<T>(string path, JsonTypeInfo<T> shape) =>
        (await _http.GetFromJsonAsync(new Uri(path, UriKind.Relative), shape, Stop))!;

    public async Task<HttpResponseMessage> Post<T>(
        string path,
        T body,
        JsonTypeInfo<T> shape,
        bool withToken = true
    )
    {
        using var content = JsonContent.Create(body, shape);
        await content.LoadIntoBufferAsync(Stop);
        return await Send(HttpMethod.Post, path, content, withToken);
    }

    public async Task<HttpResponseMessage> Post(string path) => await Send(HttpMethod.Post, path, null, true);

    /// <summary>Posts, and expects that it is done.</summary>
    public async Task Does<T>(string path, T body, JsonTypeInfo<T> shape)
    {
        using var answer = await Post(path, body, shape);
        Assert.True(answer.IsSuccessStatusCode, $"{path}: {await answer.Content.ReadAsStringAsync(Stop)}");
    }

    /// <summary>Posts, and tells the code of the refusal with the status.</summary>
    public async Task<(HttpStatusCode Status, string Code)> IsRefused<T>(
        string path,
        T body,
        JsonTypeInfo<T> shape,
        bool withToken = true
    )
    {
        using var answer = await Post(path, body, shape, withToken);
        return (answer.StatusCode, await CodeOf(answer));
    }

    public static async Task<string> CodeOf(HttpResponseMessage answer) =>
        (await answer.Content.ReadFromJsonAsync(PeopleJson.Default.Refused, Stop))!.Code;

    public Task<DoorSeen> Door() => Reads(PeopleAddresses.Door, PeopleJson.Default.DoorSeen);

    public async Task<HttpResponseMessage> Send(
        HttpMethod method,
        string path,
        HttpContent? content,
        bool withToken
    )
    {
        using var request = new HttpRequestMessage(method, new Uri(path, UriKind.Relative))
        {
            Content = content,
        };
        if (withToken)
        {
            var seen = await Reads(PeopleAddresses.Token, PeopleJson.Default.TokenSeen);
            request.Headers.Add(PeopleAddresses.TokenHeader, seen.Token);
        }

        return await _http.SendAsync(request, Stop);
    }

    public void Dispose() => _http.Dispose();
}
