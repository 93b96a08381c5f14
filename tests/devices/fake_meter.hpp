// A meter on Modbus/TCP that lives in a thread of the test: what it holds, and how it answers, is
// set from outside while it is asked.
#pragma once

#include <doctest/doctest.h>
#include <modbus.h>
#include <netinet/in.h>
#include <sys/socket.h>
#include <unistd.h>

#include <atomic>
#include <chrono>
#include <functional>
#include <stop_token>
#include <thread>

#include "devices/meter_modbus.hpp"

namespace holdpin {

// A listening socket on the loopback, at a port that the system chose.
struct Listener {
    int socket = -1;
    int port = 0;

    Listener() {
        socket = ::socket(AF_INET, SOCK_STREAM, 0);
        sockaddr_in address{};
        address.sin_family = AF_INET;
        address.sin_addr.s_addr = htonl(INADDR_LOOPBACK);
        auto* plain = reinterpret_cast<sockaddr*>(&address);
        socklen_t size = sizeof address;
        REQUIRE(::bind(socket, plain, size) == 0);
        REQUIRE(::listen(socket, 4) == 0);
        REQUIRE(::getsockname(socket, plain, &size) == 0);
        port = ntohs(address.sin_port);
    }
    ~Listener() { stop(); }
    Listener(const Listener&) = delete;
    Listener& operator=(const Listener&) = delete;
    void stop() {
        if (socket >= 0) {
            ::shutdown(socket, SHUT_RDWR);
            ::close(socket);
        }
        socket = -1;
    }
};

// What a fake meter does with a request once it has come.
enum class Answer { registers, nothing, hang_up };

// A meter with two input and two holding registers, served from a thread of this process.
class FakeMeter {
  public:
    FakeMeter() : thread_([this](const std::stop_token& stop) { serve(stop); }) {}
    ~FakeMeter() {
        thread_.request_stop();
        listener_.stop();
    }
    ModbusRegister at(int number, bool input = false, double scale = 1) const {
        return {"127.0.0.1", listener_.port, 1, number, input, scale};
    }
    void hold(std::uint16_t value) { holding_ = value; }
    void answer(Answer answer) { answer_ = answer; }
    int requests() const { return requests_; }

  private:
    void serve(const std::stop_token& stop) {
        modbus_t* context = modbus_new_tcp("127.0.0.1", 0);
        modbus_mapping_t* map = modbus_mapping_new(0, 0, 2, 2);
        map->tab_input_registers[1] = 77;
        while (!stop.stop_requested()) {
            const int socket = ::accept(listener_.socket, nullptr, nullptr);
            if (socket < 0) break;
            modbus_set_socket(context, socket);
            converse(context, map, stop);
            ::close(socket);
        }
        modbus_mapping_free(map);
        modbus_free(context);
    }
    void converse(modbus_t* context, modbus_mapping_t* map, const std::stop_token& stop) {
        std::uint8_t query[MODBUS_TCP_MAX_ADU_LENGTH];
        for (;;) {
            const int size = modbus_receive(context, query);
            if (size <= 0) return;
            ++requests_;
            map->tab_registers[0] = holding_;
            if (answer_ == Answer::hang_up) return;
            if (answer_ == Answer::registers) {
                modbus_reply(context, query, size, map);
                continue;
            }
            while (answer_ == Answer::nothing && !stop.stop_requested()) {
                std::this_thread::sleep_for(std::chrono::milliseconds(5));
            }
            return;
        }
    }

    Listener listener_;
    std::atomic<std::uint16_t> holding_ = 0;
    std::atomic<Answer> answer_ = Answer::registers;
    std::atomic<int> requests_ = 0;
    std::jthread thread_;
};

inline bool comes_true(const std::function<bool()>& wanted) {
    for (int i = 0; i < 1000; ++i) {
        if (wanted()) return true;
        std::this_thread::sleep_for(std::chrono::milliseconds(5));
    }
    return false;
}

}  // namespace holdpin
